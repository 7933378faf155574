package score

import "heddle/line"

// A noteValue is a written duration: a power of two of a whole note and a
// number of dots.
type noteValue struct {
	log  int // 0 whole, 1 half, 2 quarter, 3 eighth, … 6 sixty-fourth
	dots int
}

const (
	whole   = 4 * line.Quarter
	longest = 0 // a whole note is the longest value written
	finest  = 6 // sixty-fourths, the shortest value written
)

// flags returns how many flags or beams the value carries.
func (v noteValue) flags() int { return max(0, v.log-2) }

// length returns how long the value lasts outside a tuplet.
func (v noteValue) length() line.Beat {
	base := whole >> v.log
	if v.dots == 1 {
		return base + base/2
	}
	return base
}

// valueOf returns the single value that lasts exactly so long, with at most
// one dot.
func valueOf(length line.Beat) (noteValue, bool) {
	for log := longest; log <= finest; log++ {
		for dots := range 2 {
			if v := (noteValue{log, dots}); v.length() == length {
				return v, true
			}
		}
	}
	return noteValue{}, false
}
