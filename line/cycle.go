package line

// A Cycle says after how many notes and bars group and bar line meet again.
type Cycle struct {
	Notes int
	Bars  int
}

// CycleOf returns the cycle of groups of the sizes in a rhythm: the least
// common multiple of the bar and of what repeats, which is the group where all
// sizes are equal and the whole round of groups where they are not. A gap
// belongs to the group before it. Threes in eighths in 4/4 meet the bar line
// again after 24 notes, 3 bars. The zero Cycle answers sizes or a rhythm that
// cannot be played.
func CycleOf(sizes []int, r Rhythm) Cycle {
	if len(sizes) == 0 || len(sizes) > MostScales || r.Check() != nil {
		return Cycle{}
	}
	equal, notes, groups := true, 0, len(sizes)
	for _, size := range sizes {
		if CheckGroup(size) != nil {
			return Cycle{}
		}
		equal = equal && size == sizes[0]
		notes += size
	}
	if equal {
		notes, groups = sizes[0], 1
	}
	unit := Beat(notes)*r.Value.Length() + Beat(groups)*r.Gap
	common := gcd(unit, r.Meter.Bar())
	return Cycle{Notes: notes * int(r.Meter.Bar()/common), Bars: int(unit / common)}
}

// gcd returns the greatest common divisor of two lengths (Euclid); that of 0
// and b is b.
func gcd(a, b Beat) Beat {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
