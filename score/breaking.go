package score

import "math"

// How far spaces are stretched, as factors of the ideal.
const (
	loosest    = 1.8 // the last system is never stretched beyond
	idealRatio = 1.12

	// shortLast is what a short last system costs against one stretched as
	// much: it may be short, but not a bar alone where all could share.
	shortLast = 0.15
)

// systemsOf cuts the columns into systems of a width in staff spaces, so that
// the spaces over all systems come nearest to the ideal: a shortest path, as
// paragraphs are broken into lines (Knuth and Plass 1981). It returns the
// column after the last one of each system.
func systemsOf(columns []column, width, prefix, firstPrefix float64) []int {
	n := len(columns)
	ideal, least := make([]float64, n+1), make([]float64, n+1)
	for i, c := range columns {
		ideal[i+1] = ideal[i] + max(c.ideal, c.least)
		least[i+1] = least[i] + c.least
	}
	best, from := make([]float64, n+1), make([]int, n+1)
	for to := 1; to <= n; to++ {
		best[to], from[to] = math.Inf(1), -1
		if to < n && columns[to-1].breakCost < 0 && !columns[to-1].barLine {
			continue
		}
		for start := to - 1; start >= 0; start-- {
			if start > 0 && from[start] < 0 {
				continue
			}
			room := width - prefix
			if start == 0 {
				room = width - firstPrefix
			}
			room -= lead(columns[start])
			tight := least[to-1] - least[start] + trail(columns[to-1])
			cost := 0.0
			if tight > room {
				if best[to] < math.Inf(1) {
					break
				}
				cost = 1e6 * (1 + tight/room)
			} else {
				loose := ideal[to-1] - ideal[start] + trail(columns[to-1])
				ratio := room / loose / idealRatio
				cost = 100 * math.Pow(math.Log(ratio), 2)
				if to == n && ratio > 1 {
					cost *= shortLast
				}
			}
			if to < n && !columns[to-1].barLine {
				cost += columns[to-1].breakCost
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

// justify sets the columns of one system between two edges: every space is
// the same multiple of its ideal, but never less than what keeps neighbours
// apart. It returns where the system's lines end.
func justify(columns []column, left, right float64, last bool) float64 {
	left += lead(columns[0])
	right -= trail(columns[len(columns)-1])
	spaces := columns[:len(columns)-1]
	at := func(factor float64) float64 {
		x := left
		for _, c := range spaces {
			x += max(c.least, c.ideal*factor)
		}
		return x
	}
	low, high := 0.0, loosest
	if !last {
		high = 1e3
	}
	if at(high) > right {
		for range 50 {
			middle := (low + high) / 2
			if at(middle) > right {
				high = middle
			} else {
				low = middle
			}
		}
	} else {
		low = min(high, 1.3)
		if !last {
			low = high
		}
	}
	x := left
	for i := range columns {
		columns[i].x = x
		x += max(columns[i].least, columns[i].ideal*low)
	}
	return columns[len(columns)-1].x + trail(columns[len(columns)-1])
}
