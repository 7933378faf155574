package model

import "strings"

// tunings gives each instrument's open strings, the highest string first
// (common practice).
var tunings = map[string][]int{
	"guitar": {64, 59, 55, 50, 45, 40}, "seven-string guitar": {64, 59, 55, 50, 45, 40, 35},
	"eight-string guitar": {64, 59, 55, 50, 45, 40, 35, 30}, "baritone guitar": {59, 54, 50, 45, 40, 35},
	"bass": {43, 38, 33, 28}, "five-string bass": {43, 38, 33, 28, 23}, "six-string bass": {48, 43, 38, 33, 28, 23},
	"ukulele": {69, 64, 60, 67}, "baritone ukulele": {64, 59, 55, 50}, "mandolin": {76, 69, 62, 55},
}

func checkHands(f *faults, b *built) {
	open := tunings[b.fields.Get("instrument")]
	for i, n := range b.Notes {
		if n.String < 1 || n.String > len(open) || open[n.String-1]+n.Fret != n.MIDI {
			f.add("string and fret give the pitch", b, "note %d: string %d, fret %d is not %d", i, n.String, n.Fret, n.MIDI)
		}
		if (n.Fret == 0) != (n.Finger == 0) || n.Finger > 4 {
			f.add("an open string takes no finger", b, "note %d: fret %d, finger %d", i, n.Fret, n.Finger)
		}
		if n.Role == "pattern" && !b.placed(n) {
			f.add("the pattern stays in its placement", b, "note %d: string %d, fret %d", i, n.String, n.Fret)
		}
		if i > 0 {
			checkMove(f, b, b.Notes[i-1], n)
		}
	}
}

// placed reports whether a note is under the hand of one of the placements. A
// note that is a spot of its placement may be played on another string there.
func (b *built) placed(n note) bool {
	for _, s := range b.Scales {
		if w := s.Placement.Window; n.Fret == 0 || w[0] <= n.Fret && n.Fret <= w[1] {
			return true
		}
	}
	return false
}

// checkMove checks two notes in a row.
func checkMove(f *faults, b *built, from, to note) {
	if from.String == to.String && from.Fret == to.Fret && from.Finger != to.Finger {
		f.add("the finger stays on a repeated note", b, "notes %d and %d: finger %d, then %d", from.Index, to.Index, from.Finger, to.Finger)
	}
	if from.Finger == 0 || to.Finger == 0 {
		return
	}
	frets, fingers := to.Fret-from.Fret, to.Finger-from.Finger
	if (frets == 1 || frets == -1) && fingers == 3*frets {
		f.habit("fingers 1 and 4 are not on neighbouring frets", b, "notes %d and %d: frets %d and %d, fingers %d and %d", from.Index, to.Index, from.Fret, to.Fret, from.Finger, to.Finger)
	}
	if neighbours := fingers == 1 || fingers == -1; from.String == to.String && neighbours && frets*fingers < 0 {
		f.habit("neighbouring fingers do not cross on a string", b, "notes %d and %d: frets %d and %d, fingers %d and %d", from.Index, to.Index, from.Fret, to.Fret, from.Finger, to.Finger)
	}
	if strings.HasPrefix(to.Stroke, "hammer") && (from.String != to.String || frets <= 0) || strings.HasPrefix(to.Stroke, "pull") && (from.String != to.String || frets >= 0) {
		f.add("a hammer-on rises and a pull-off falls on one string", b, "notes %d and %d: %s", from.Index, to.Index, to.Stroke)
	}
}
