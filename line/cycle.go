package line

// A Cycle is the number of notes and bars after which a group begins on a bar
// line again.
type Cycle struct {
	Notes int
	Bars  int
}

// CycleOf returns the cycle of groups of the given sizes in a rhythm: the least
// common multiple of the bar and of what repeats. That is one group if all
// sizes are equal, otherwise the whole round of groups. A gap belongs to the
// group before it. Threes in eighths in 4/4 meet the bar line again after 24
// notes, 3 bars. For sizes or a rhythm that can't be played it returns the zero
// Cycle.
func CycleOf(sizes []int, r Rhythm) Cycle {
	if len(sizes) == 0 || len(sizes) > mostScales || r.Check() != nil {
		return Cycle{}
	}
	equal, notes, groups := true, 0, len(sizes)
	for _, size := range sizes {
		if checkGroup(size) != nil {
			return Cycle{}
		}
		equal = equal && size == sizes[0]
		notes += size
	}
	if equal {
		notes, groups = sizes[0], 1
	}
	unit := Beat(notes)*r.Value.Length() + Beat(groups)*r.Gap
	common := GCD(unit, r.Meter.Bar())
	return Cycle{Notes: notes * int(r.Meter.Bar()/common), Bars: int(unit / common)}
}
