package neck

// findRoot sets the string of the lowest root and its finger, with one finger per
// fret from the first finger's on.
func (p *Placement) findRoot() {
	root := p.Scale.Root.Class()
	for _, place := range p.Places {
		if place.Pitch.Name.Class() != root {
			continue
		}
		p.RootString = place.String
		if place.Fret > 0 {
			p.RootFinger = min(place.Fret-p.FirstFinger()+1, handFrets)
		}
		return
	}
}

// guitarSteps are the semitones between neighbouring strings, from string 1 to 6,
// for which the open shapes have their names.
var guitarSteps = [5]int{5, 4, 5, 5, 5}

// A rootHome is where a shape has its lowest root: the string, and whether it is
// beyond the first two fingers.
type rootHome struct {
	string int
	beyond bool
}

// openShapes are the open chords by their root (common practice: open E and A have
// it on their lowest string at the low end of the hand, G and C at the high end,
// D on string 4).
var openShapes = map[rootHome]string{
	{6, false}: "E",
	{6, true}:  "G",
	{5, false}: "A",
	{5, true}:  "C",
	{4, false}: "D",
	{4, true}:  "D",
}

// openShape returns the open chord shape that a placement grows from. The
// chord is the one on the scale's own root, minor for a minor scale: A minor
// pentatonic with its root on string 6 under the first finger grows from the
// shape of open E minor. Only pentatonics and seven-note scales in position have
// such names, on strings tuned like a guitar's.
func openShape(in Instrument, p Placement, size int) string {
	named := size == 5 && p.System == twoPerString || size == 7 && p.System == positional
	if !named || !hasGuitarStrings(in) {
		return ""
	}
	root := p.Scale.Root.Class()
	for _, place := range p.Places {
		if place.String <= len(guitarSteps)+1 && place.Pitch.Name.Class() == root {
			return openShapes[rootHome{place.String, place.Fret > p.Window.Low+1}]
		}
	}
	return ""
}

// hasGuitarStrings reports whether strings 1 to 6 have a guitar's intervals.
func hasGuitarStrings(in Instrument) bool {
	if in.Strings() <= len(guitarSteps) {
		return false
	}
	for i, step := range guitarSteps {
		if in.Open[i].MIDI()-in.Open[i+1].MIDI() != step {
			return false
		}
	}
	return true
}
