package neck

import (
	"math"
	"math/bits"
	"slices"
)

// An extent is what the rank of a group of placements depends on, apart from
// shared spots.
type extent struct {
	lowest, highest int // first fingers
	high            int // highest fret
	mixed           bool
}

// with returns the extent of the group with one more placement.
func (e extent) with(s, home *stand) extent {
	return extent{
		lowest:  min(e.lowest, s.first),
		highest: max(e.highest, s.first),
		high:    max(e.high, s.high),
		mixed:   e.mixed || s.size == home.size && s.system != home.system,
	}
}

// A group is a home placement with a placement of each of the first few
// superimposed scales.
type group struct {
	rank
	extent
	pick   int // the last scale's placement
	before int // index of the group without it
}

// A listing is a group with a placement of every scale that is shown.
type listing struct {
	rank
	extent
	cost  float64 // see costFrets
	picks []int   // by scale, home first
}

// appendBest appends the groups to list for a home placement, best first. It adds
// one superimposed scale after another, and of all groups with one extent keeps
// the one with the most shared spots. This finds the best without trying every
// combination.
func (n *neighbours) appendBest(listed []listing, h int) []listing {
	home := &n.scales[0][h]
	start := group{extent: extent{lowest: home.first, highest: home.first, high: home.high}, pick: h}
	start.rank = n.rank(start.extent, 0)
	n.groups = append(n.groups[:0], start)
	from, sure := 0, n.sureShift(home)
	for _, stands := range n.scales[1:] {
		to := len(n.groups)
		n.takeIn(stands, home, from, to, sure)
		from = to
	}
	return n.appendChosen(listed, from)
}

// takeIn appends the groups made from those in [from, to) with one more scale, if
// their shift is within reach or at most sureMM.
func (n *neighbours) takeIn(stands []stand, home *stand, from, to int, sureMM float64) {
	clear(n.seen)
	for pick := range stands {
		s := &stands[pick]
		shared := sharedSpots(home, s)
		for before := from; before < to; before++ {
			e := n.groups[before].with(s, home)
			r := n.rank(e, n.groups[before].shared+shared)
			if r.shiftMM > sureMM && !reaches(r.shiftMM, n.reachMM) {
				continue
			}
			g := group{r, e, pick, before}
			at, found := n.seen[e]
			switch {
			case !found:
				n.seen[e] = len(n.groups)
				n.groups = append(n.groups, g)
			case r.shared > n.groups[at].shared:
				n.groups[at] = g
			}
		}
	}
}

// appendChosen appends the groups to list, out of those from the given one on.
func (n *neighbours) appendChosen(listed []listing, from int) []listing {
	order := make([]int, len(n.groups)-from)
	for i := range order {
		order[i] = from + i
	}
	slices.SortStableFunc(order, func(a, b int) int { return n.groups[a].compare(n.groups[b].rank) })
	within := func(at int) bool { return reaches(n.groups[at].shiftMM, n.reachMM) }
	if n.groups[order[0]].rank.mixed {
		pure := slices.IndexFunc(order, func(at int) bool { return !n.groups[at].rank.mixed && within(at) })
		if pure > 0 {
			best := order[pure]
			copy(order[2:pure+1], order[1:pure])
			order[1] = best
		}
	}
	for i, at := range order[:min(perHome, len(order))] {
		if i > 0 && !within(at) {
			break
		}
		listed = append(listed, n.listing(at))
	}
	return listed
}

// listing returns a group as it is listed.
func (n *neighbours) listing(at int) listing {
	g, picks := n.groups[at], n.picks(at)
	return listing{g.rank, g.extent, costFrets(g.highest-g.lowest, n.placed[0][picks[0]].Window), picks}
}

// sureShift returns a shift in mm that at least one group with the home placement
// does not exceed: that of each scale's nearest placement.
func (n *neighbours) sureShift(home *stand) float64 {
	nearest := extent{lowest: home.first, highest: home.first}
	for _, stands := range n.scales[1:] {
		best, bestMM := home.first, math.Inf(1)
		for _, s := range stands {
			if mm := math.Abs(n.mm[s.first] - n.mm[home.first]); mm < bestMM {
				best, bestMM = s.first, mm
			}
		}
		nearest.lowest, nearest.highest = min(nearest.lowest, best), max(nearest.highest, best)
	}
	return n.shift(nearest)
}

// shift returns how far apart in mm the first fingers of a group are.
func (n *neighbours) shift(e extent) float64 { return n.mm[e.highest] - n.mm[e.lowest] }

func (n *neighbours) rank(e extent, shared int) rank {
	return rank{shiftMM: n.shift(e), widthMM: n.mm[e.high] - n.mm[e.lowest], shared: shared, mixed: e.mixed}
}

// picks returns the placements of a group by scale, home first.
func (n *neighbours) picks(at int) []int {
	picks := make([]int, len(n.scales))
	for scale := len(picks) - 1; scale >= 0; scale-- {
		picks[scale] = n.groups[at].pick
		at = n.groups[at].before
	}
	return picks
}

// pairs returns the listed groups as pairs.
func (n *neighbours) pairs(listed []listing) []Pair {
	over := len(n.scales) - 1
	all := make([]Placement, 0, over*len(listed)) // one block for all of them
	pairs := make([]Pair, len(listed))
	for i, l := range listed {
		from := len(all)
		fits := true
		for scale, pick := range l.picks {
			fits = fits && n.scales[scale][pick].fits
			if scale > 0 {
				all = append(all, n.placed[scale][pick])
			}
		}
		pairs[i] = Pair{
			Home:         n.placed[0][l.picks[0]],
			Superimposed: all[from:len(all):len(all)],
			ShiftFrets:   l.highest - l.lowest,
			ShiftMM:      l.shiftMM,
			CostFrets:    l.cost,
			WidthMM:      l.widthMM,
			SharedSpots:  l.shared,
			Joined:       reaches(l.shiftMM, n.reachMM),
			Fits:         fits,
		}
		pairs[i].Why = why(&pairs[i])
	}
	return pairs
}

// sharedSpots counts the spots in both placements.
func sharedSpots(a, b *stand) int {
	shared := 0
	for i := range a.frets {
		shared += bits.OnesCount64(a.frets[i] & b.frets[i])
	}
	return shared
}
