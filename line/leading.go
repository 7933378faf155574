package line

import "heddle/pitch"

// leading names a chromatic note by the note it leads to: raised below it,
// lowered above it, on the next letter where that takes at most one
// accidental (C♯ to D, E♭ to D, A to B♭). Elsewhere it takes the plain sharp
// going up and the plain flat coming down.
func leading(key int, to pitch.Pitch) pitch.Pitch {
	step := to.MIDI() - key
	if step == 1 || step == -1 {
		letter := pitch.Letter((int(to.Name.Letter) + 7 - step) % 7)
		alter := (key%12-letter.Class()+18)%12 - 6
		if alter >= -1 && alter <= 1 {
			return pitch.Named(pitch.Name{Letter: letter, Accidental: alter}, key)
		}
	}
	if step > 0 {
		return pitch.Named(sharps[key%12], key)
	}
	return pitch.Named(flats[key%12], key)
}

// sharps and flats are the names of the twelve in the plain chromatic scale
// going up and coming down (common practice).
var (
	sharps = [12]pitch.Name{
		{Letter: pitch.C}, {Letter: pitch.C, Accidental: 1}, {Letter: pitch.D}, {Letter: pitch.D, Accidental: 1},
		{Letter: pitch.E}, {Letter: pitch.F}, {Letter: pitch.F, Accidental: 1}, {Letter: pitch.G},
		{Letter: pitch.G, Accidental: 1}, {Letter: pitch.A}, {Letter: pitch.A, Accidental: 1}, {Letter: pitch.B},
	}
	flats = [12]pitch.Name{
		{Letter: pitch.C}, {Letter: pitch.D, Accidental: -1}, {Letter: pitch.D}, {Letter: pitch.E, Accidental: -1},
		{Letter: pitch.E}, {Letter: pitch.F}, {Letter: pitch.G, Accidental: -1}, {Letter: pitch.G},
		{Letter: pitch.A, Accidental: -1}, {Letter: pitch.A}, {Letter: pitch.B, Accidental: -1}, {Letter: pitch.B},
	}
)
