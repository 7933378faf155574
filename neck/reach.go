package neck

import "math"

// DefaultReachMM is how far apart a hand's first and fourth finger can be. A
// single limit near 100 mm explains why a hand covers about four frets low on the
// neck, five from the fifth fret and six from the ninth (our inference from the
// fret formula at 648 mm: 97, 100 and 97 mm).
const DefaultReachMM = 100

// reaches reports whether a span is within a hand's reach, to the nearest whole
// mm: five frets from the fifth are 100.15 mm, which a hand of 100 reaches.
func reaches(spanMM, reachMM float64) bool { return math.Round(spanMM) <= reachMM }
