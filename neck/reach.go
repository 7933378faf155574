package neck

import "math"

// DefaultReachMM is how far apart the first and the fourth finger of a hand
// may stand. One limit near 100 mm explains why a hand covers about four
// frets low on the neck, five from the fifth fret and six from the ninth
// (our inference from the fret formula at 648 mm: 97, 100 and 97 mm).
const DefaultReachMM = 100

// reaches reports whether a span is within a hand's reach. Both are compared
// to the nearest whole mm: five frets from the fifth are 100.15 mm, and
// players call them within reach of a hand of 100.
func reaches(spanMM, reachMM float64) bool { return math.Round(spanMM) <= reachMM }

// FretsFrom returns how many frets the hand covers when its first finger
// stands at fret and its fourth reaches as far as it can on the neck.
func (in Instrument) FretsFrom(fret int, reachMM float64) int {
	last := fret
	for last < in.LastFret() && reaches(in.WidthMM(fret, last+1), reachMM) {
		last++
	}
	return last - fret + 1
}
