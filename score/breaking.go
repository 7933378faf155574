package score

import "math"

// How far spaces are stretched, as factors of the ideal.
const (
	usual      = 1.3  // where there is only one system
	loosest    = 1.35 // how much more than the others the last one may be stretched to fill the width
	idealRatio = 1.12

	// shortLast is what a short last system costs against one stretched as
	// much: it may be short, but not one bar where the systems could share evenly.
	shortLast = 0.15

	crowded = 4.0 // what spaces that are too narrow cost against ones as much too wide
)

// systemsOf cuts the columns into systems of a width in staff spaces, so that
// the spaces over all systems come nearest to the ideal: a shortest path, as
// paragraphs are broken into lines (Knuth and Plass 1981). It returns the
// column after the last one of each system.
func systemsOf(columns []column, width, prefix, firstPrefix float64) []int {
	b := newBreaker(columns, width, prefix, firstPrefix)
	n := len(columns)
	best, from := make([]float64, n+1), make([]int, n+1)
	for to := 1; to <= n; to++ {
		best[to], from[to] = math.Inf(1), -1
		if !b.mayEnd[to-1] {
			continue
		}
		for start := to - 1; start >= 0; start-- {
			if start > 0 && from[start] < 0 {
				continue
			}
			cost, fits := b.cost(start, to)
			if !fits && best[to] < math.Inf(1) {
				break
			}
			if total := best[start] + cost; total < best[to] {
				best[to], from[to] = total, start
			}
		}
	}
	var ends []int
	for at := n; at > 0; at = from[at] {
		ends = append([]int{at}, ends...)
	}
	return ends
}

// A breaker computes the cost of a system from its columns.
type breaker struct {
	columns             []column
	ideal, least        []float64 // of the columns before each
	width               float64   // of a system in staff spaces
	prefix, firstPrefix float64
	mayEnd              []bool // whether a system may end after each column
}

func newBreaker(columns []column, width, prefix, firstPrefix float64) *breaker {
	n := len(columns)
	b := &breaker{columns, make([]float64, n+1), make([]float64, n+1), width, prefix, firstPrefix, make([]bool, n)}
	for i, c := range columns {
		b.ideal[i+1] = b.ideal[i] + max(c.ideal, c.least)
		b.least[i+1] = b.least[i] + c.least
	}
	bar := 0 // its first column
	for i, c := range columns {
		if !c.barLine {
			continue
		}
		fits := b.tight(bar, i+1) <= b.room(bar)
		for j := bar; j < i; j++ {
			b.mayEnd[j] = !fits && columns[j].breakCost >= 0
		}
		b.mayEnd[i] = true
		bar = i + 1
	}
	return b
}

// room returns how wide the columns of a system may be.
func (b *breaker) room(start int) float64 {
	prefix := b.prefix
	if start == 0 {
		prefix = b.firstPrefix
	}
	return b.width - prefix - lead(b.columns[start])
}

// tight returns how wide the columns start … to−1 are at the least.
func (b *breaker) tight(start, to int) float64 {
	return b.least[to-1] - b.least[start] + b.columns[start].chordRoom + trail(b.columns[to-1])
}

// cost returns what a system of the columns start … to−1 costs, and whether it
// fits the width.
func (b *breaker) cost(start, to int) (cost float64, fits bool) {
	room, tight := b.room(start), b.tight(start, to)
	if tight > room {
		return 1e6 * (1 + tight/room), false
	}
	last := b.columns[to-1]
	ratio := room / (b.ideal[to-1] - b.ideal[start] + trail(last)) / idealRatio
	cost = 100 * math.Pow(math.Log(ratio), 2) // 16 for half as much again
	switch {
	case ratio < 1:
		cost *= crowded
	case to == len(b.columns):
		cost *= shortLast
	}
	if to < len(b.columns) {
		cost += last.breakCost
	}
	return cost, true
}

// lead returns the space before the first column of a system.
func lead(c column) float64 { return widestLeft(c) }

// trail returns the space after the last column of a system.
func trail(c column) float64 {
	if c.barLine {
		return 0
	}
	w := 0.0
	for _, e := range c.extents {
		w = max(w, e.right)
	}
	return w + 0.3
}

// widestLeft returns how far anything of a column reaches to its left.
func widestLeft(c column) float64 {
	w := 0.0
	for _, e := range c.extents {
		w = max(w, e.left)
	}
	return w
}

// stretchToFill returns by how much, as a multiple of their ideal, the spaces
// of a system's columns fill the room between two edges; 0 if not even the least
// spaces fit.
func stretchToFill(columns []column, left, right float64) float64 {
	low, high := 0.0, 1e3
	for range 50 {
		middle := (low + high) / 2
		if place(columns, left, middle) > right {
			high = middle
		} else {
			low = middle
		}
	}
	return low
}

// place sets the columns of one system from its left edge: every space is the
// same multiple of its ideal, but never less than what keeps neighbours apart.
// It returns where the system's lines end.
func place(columns []column, left, stretch float64) (right float64) {
	x := left + lead(columns[0])
	for i := range columns {
		columns[i].x = x
		x += max(columns[i].least, columns[i].ideal*stretch)
	}
	last := columns[len(columns)-1]
	return last.x + trail(last)
}
