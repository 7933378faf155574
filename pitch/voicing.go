package pitch

import "slices"

// A comping voicing has its root in the octave from C3 up, below the line and
// above the bass, and at most five notes, as many as a hand can fret.
const (
	lowestVoicingRoot = 48 // C3
	mostVoices        = 5
)

// Voicing returns a plain comping voicing in rising MIDI keys: the root (C3 to
// B3), then third and seventh or sixth in close position, then the tensions. If
// there are more than five notes, the perfect fifth is left out first, then lower
// tensions. A slash bass is below the root.
func (c Chord) Voicing() []int {
	root := lowestVoicingRoot + mod12(c.Root.Class()-lowestVoicingRoot)
	keys := []int{root}
	for _, d := range c.voiced() {
		keys = append(keys, root+d.Semitones())
	}
	if c.Bass.Class() != c.Root.Class() {
		keys = append(keys, root-mod12(c.Root.Class()-c.Bass.Class()))
	}
	slices.Sort(keys)
	return keys
}

// voiced returns the degrees above the root that are voiced, the most important
// first.
func (c Chord) voiced() []Degree {
	var voices []Degree
	pick := func(wanted func(Degree) bool) {
		for _, d := range slices.Backward(c.Degrees) {
			if len(voices) < mostVoices-1 && wanted(d) {
				voices = append(voices, d)
			}
		}
	}
	bothNinths := c.has(9, -1) && c.has(9, 1)
	fifth := Degree{Number: 5}
	pick(func(d Degree) bool { return d.Number == 7 || d.Number == 6 })
	pick(func(d Degree) bool { return d.Number >= 2 && d.Number <= 4 })
	pick(func(d Degree) bool { return d.Number == 5 && d != fifth })
	pick(func(d Degree) bool { return d.Number == 13 })
	pick(func(d Degree) bool { return d.Number == 9 && !(bothNinths && d.Alter < 0) })
	pick(func(d Degree) bool { return d.Number == 11 })
	pick(func(d Degree) bool { return d == fifth })
	return voices
}
