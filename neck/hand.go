package neck

import "math"

// handFrets is how many frets four fingers cover with one finger per fret.
const handFrets = 4

// A share is how many notes each string of a run may hold.
type share struct{ least, most int }

// anyShare asks only that no string be left out; a string has no more than
// maxFrets+1 notes.
var anyShare = share{1, maxFrets + 1}

// A strain is what a run asks of the hand, smaller being easier: first the
// number of notes outside four neighbouring frets, then by how many frets,
// then how few notes the run has for it, then how many of them are stopped.
// The parts stand in one number, each given more room than a run can fill.
type strain int64

const (
	oneStopped     strain = 1
	oneNoteLess    strain = 1 << 10
	oneFretOutside strain = 1 << 20
	oneNoteOutside strain = 1 << 36
	noWay          strain = math.MaxInt64
)

// narrowest returns the run that begins with the tone and lies in the
// narrowest window which holds it; ok is false where the neck has no room.
// The tone is the lowest of the window on its string. Of windows of one
// width the one of least strain is taken, and then the lowest.
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
// string. It follows the earliest and the latest tone a string may begin
// with; all between are possible too.
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

// easiest returns the run of least strain in the window, whichever four frets
// the hand stands over.
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

// easiestFrom returns the run of least strain in the window for a hand whose
// first finger stands at base. From the top string down it works out for each
// tone a string may begin with where that string had best end.
func (l *ladder) easiestFrom(base int, w Window, start int, each share) (run, strain) {
	var (
		ends [maxStrings][maxFrets + 1]int
		cost [maxStrings][maxFrets + 1]strain
	)
	nextFirst, nextLast := 0, -1
	for i := l.strings - 1; i >= 0; i-- {
		first, last := l.span(i, w)
		for from := first; from <= last; from++ {
			cost[i][from-first] = noWay
			held := strain(0)
			for end := from + 1; end <= min(last+1, from+each.most); end++ {
				held += strainOf(l.fret(i, end-1), base)
				rest := noWay
				switch {
				case end-from < each.least:
				case i == l.strings-1:
					rest = strain(maxKeys-end) * oneNoteLess
					if end < min(last+1, from+each.most) {
						rest = noWay // the top string takes all it can
					}
				case end >= nextFirst && end <= nextLast:
					rest = cost[i+1][end-nextFirst]
				}
				if rest < noWay && held+rest <= cost[i][from-first] {
					ends[i][from-first], cost[i][from-first] = end, held+rest
				}
			}
		}
		nextFirst, nextLast = first, last
	}
	lowest, _ := l.span(0, w)
	if cost[0][start-lowest] == noWay {
		return run{}, noWay
	}
	r := run{start: start}
	for i, from := 0, start; i < l.strings; i++ {
		first, _ := l.span(i, w)
		r.ends[i] = ends[i][from-first]
		from = r.ends[i]
	}
	return r, cost[0][start-lowest]
}

// strainOf returns the strain of a note for a hand whose first finger stands
// at base. An open string asks nothing of the hand.
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
