package neck

import "math"

// handFrets is the number of frets under four fingers, with one finger per fret.
const handFrets = 4

// A share is how many notes each string of a run may hold.
type share struct{ least, most int }

// anyShare only requires at least one note on each string.
var anyShare = share{1, maxFrets + 1}

// A strain is how hard a run is for the hand, smaller being easier: first the
// number of notes outside four neighbouring frets, then by how many frets they
// are outside, then how few notes the run has, then how many are stopped. The
// parts share one number, each with more room than a run can fill.
type strain int64

const (
	oneStopped     strain = 1
	oneNoteLess    strain = 1 << 10
	oneFretOutside strain = 1 << 20
	oneNoteOutside strain = 1 << 36
	noWay          strain = math.MaxInt64
)

// narrowest returns the run that begins with the tone in the narrowest window
// that holds it; ok is false if the neck has no room. The tone is the lowest of
// the window on its string. Of windows with one width, it takes the one with the
// least strain, then the lowest.
func (l *ladder) narrowest(start int, each share) (r run, ok bool) {
	fret, below := l.fret(0, start), -1
	if start > 0 {
		below = l.fret(0, start-1)
	}
	width := 0
	if l.strings == 1 {
		width = handFrets - 1 // or one note would do
	}
	for ; width <= l.last; width++ {
		least := noWay
		for low := max(below+1, fret-width); low <= fret && low+width <= l.last; low++ {
			w := Window{low, low + width}
			if !l.holds(w, start, each) {
				continue
			}
			if candidate, cost := l.easiest(w, start, each); cost < least {
				r, least = candidate, cost
			}
		}
		if least < noWay {
			return r, true
		}
	}
	return run{}, false
}

// holds reports whether the window holds a run from the tone up to the top
// string. It follows the earliest and latest tone that each string may begin
// with; all those between are possible too.
func (l *ladder) holds(w Window, start int, each share) bool {
	earliest, latest := start, start
	for i := range l.strings {
		first, last := l.span(i, w)
		earliest, latest = max(earliest, first), min(latest, last-each.least+1)
		if earliest > latest {
			return false
		}
		earliest, latest = earliest+each.least, min(last, latest+each.most-1)+1
	}
	return true
}

// easiest returns the run of least strain in the window, for any four frets under
// the hand.
func (l *ladder) easiest(w Window, start int, each share) (best run, least strain) {
	least = noWay
	highestBase := max(w.High-handFrets+1, w.Low)
	for base := w.Low; base <= highestBase; base++ {
		if r, cost := l.easiestFrom(base, w, start, each); cost < least {
			best, least = r, cost
		}
	}
	return best, least
}

// A stringPlan holds, for each tone of a string in the window, where the string
// should end if it begins with that tone, and the strain of it and the strings
// above.
type stringPlan struct {
	first, last int // tones
	ends        [maxFrets + 1]int
	cost        [maxFrets + 1]strain
}

// easiestFrom returns the run of least strain in the window for a hand with its
// first finger at base. It plans from the top string down.
func (l *ladder) easiestFrom(base int, w Window, start int, each share) (run, strain) {
	var plans [maxStrings]stringPlan
	for i := l.strings - 1; i >= 0; i-- {
		var above *stringPlan
		if i < l.strings-1 {
			above = &plans[i+1]
		}
		l.planString(&plans[i], i, base, w, each, above)
	}
	least := plans[0].cost[start-plans[0].first]
	if least == noWay {
		return run{}, noWay
	}
	r := run{start: start}
	for i, from := 0, start; i < l.strings; i++ {
		from = plans[i].ends[from-plans[i].first]
		r.ends[i] = from
	}
	return r, least
}

// planString plans the i-th string from the lowest, given the plan of the string
// above it, or nil for the top string, which takes all it can.
func (l *ladder) planString(p *stringPlan, i, base int, w Window, each share, above *stringPlan) {
	p.first, p.last = l.span(i, w)
	for from := p.first; from <= p.last; from++ {
		p.cost[from-p.first] = noWay
		furthest := min(p.last+1, from+each.most)
		held := strain(0)
		for end := from + 1; end <= furthest; end++ {
			held += strainOf(l.fret(i, end-1), base)
			if end-from < each.least {
				continue
			}
			rest := noWay
			switch {
			case above == nil && end == furthest:
				rest = strain(maxKeys-end) * oneNoteLess
			case above != nil && end >= above.first && end <= above.last:
				rest = above.cost[end-above.first]
			}
			if rest < noWay && held+rest <= p.cost[from-p.first] {
				p.ends[from-p.first], p.cost[from-p.first] = end, held+rest
			}
		}
	}
}

// strainOf returns the strain of a note for a hand with its first finger at base.
// An open string has none.
func strainOf(fret, base int) strain {
	if fret == 0 {
		return 0
	}
	frets := max(base-fret, fret-base-handFrets+1, 0)
	if frets == 0 {
		return oneStopped
	}
	return oneStopped + oneNoteOutside + strain(frets)*oneFretOutside
}
