package landing

import "heddle/pitch"

// leading names a chromatic note after the note it leads to: raised below it,
// lowered above it, on the next letter if that takes at most one accidental (C♯
// to D, E♭ to D, A to B♭). Otherwise it has the name of the chromatic scale:
// sharps going up, flats coming down (common practice).
func leading(key int, to pitch.Pitch) pitch.Pitch {
	step := to.MIDI() - key
	if step == 1 || step == -1 {
		letter := pitch.Letter((int(to.Name.Letter) + 7 - step) % 7)
		alter := (key%12-letter.Class()+18)%12 - 6
		if alter >= -1 && alter <= 1 {
			return pitch.Named(pitch.Name{Letter: letter, Accidental: alter}, key)
		}
	}
	return pitch.Named(pitch.PlainName(key%12, step <= 0), key)
}
