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
