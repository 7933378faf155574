package neck

import (
	"math"
	"math/bits"
	"slices"
)

// An extent is all that the rank of a group of placements depends on, its
// shared spots aside.
type extent struct {
	lowest, highest int // first fingers
	high            int // highest fret
	mixed           bool
}

// with returns the extent of the group and one placement more.
func (e extent) with(s stand, home *stand) extent {
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
	extent
	shared int
	pick   int // the last scale's placement
	before int // where the group without it stands
}

// A rankedGroup is a group with a placement of every scale.
type rankedGroup struct {
	rank
	extent
	picks []int // by scale, home first
}

// bestWith returns the pairs to list for a home placement, best first. It
// takes in one superimposed scale after another, and of all groups of one
// extent keeps the one with the most shared spots. So the best is found
// without trying every combination.
func (n *neighbours) bestWith(h int) []rankedGroup {
	home := &n.scales[0][h]
	groups := []group{{extent: extent{lowest: home.first, highest: home.first, high: home.high}, pick: h}}
	from, sure := 0, n.sureShift(home)
	seen := map[extent]int{}
	for _, stands := range n.scales[1:] {
		to := len(groups)
		clear(seen)
		for before := from; before < to; before++ {
			for pick, s := range stands {
				g := group{groups[before].with(s, home), groups[before].shared + sharedSpots(home, &s), pick, before}
				if shift := n.shift(g.extent); shift > sure && !reaches(shift, n.reachMM) {
					continue
				}
				at, found := seen[g.extent]
				switch {
				case !found:
					seen[g.extent] = len(groups)
					groups = append(groups, g)
				case g.shared > groups[at].shared:
					groups[at] = g
				}
			}
		}
		from = to
	}
	return n.chosen(groups, from)
}

// chosen returns the groups from the given one on that are worth listing.
func (n *neighbours) chosen(groups []group, from int) []rankedGroup {
	order := make([]int, 0, len(groups)-from)
	for at := from; at < len(groups); at++ {
		order = append(order, at)
	}
	slices.SortStableFunc(order, func(a, b int) int { return n.rank(groups[a]).compare(n.rank(groups[b])) })
	listed := order[:1]
	within := func(at int) bool { return reaches(n.shift(groups[at].extent), n.reachMM) }
	if groups[order[0]].mixed {
		pure := slices.IndexFunc(order, func(at int) bool { return !groups[at].mixed && within(at) })
		if pure > 0 {
			moved := order[pure]
			copy(order[2:pure+1], order[1:pure])
			order[1] = moved
		}
	}
	for len(listed) < min(perHome, len(order)) && within(order[len(listed)]) {
		listed = order[:len(listed)+1]
	}
	ranked := make([]rankedGroup, len(listed))
	for i, at := range listed {
		ranked[i] = rankedGroup{n.rank(groups[at]), groups[at].extent, n.picks(groups, at)}
	}
	return ranked
}

// sureShift returns a shift in mm that some group with the home placement is
// sure to keep: that of each scale's nearest placement.
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

func (n *neighbours) rank(g group) rank {
	return rank{shiftMM: n.shift(g.extent), widthMM: n.mm[g.high] - n.mm[g.lowest], shared: g.shared, mixed: g.mixed}
}

// picks returns the placements of a group by scale, home first.
func (n *neighbours) picks(groups []group, at int) []int {
	picks := make([]int, len(n.scales))
	for scale := len(picks) - 1; scale >= 0; scale-- {
		picks[scale] = groups[at].pick
		at = groups[at].before
	}
	return picks
}

// pair returns the listed form of a group.
func (n *neighbours) pair(r rankedGroup) Pair {
	p := Pair{
		Home:        n.placed[0][r.picks[0]],
		ShiftFrets:  r.highest - r.lowest,
		ShiftMM:     r.shiftMM,
		WidthMM:     r.widthMM,
		SharedSpots: r.shared,
		Joined:      reaches(r.shiftMM, n.reachMM),
	}
	p.Fits = p.Home.Fits(n.in, n.reachMM)
	for scale, pick := range r.picks[1:] {
		s := n.placed[scale+1][pick]
		p.Superimposed = append(p.Superimposed, s)
		p.Fits = p.Fits && s.Fits(n.in, n.reachMM)
	}
	p.Why = why(p)
	return p
}

// sharedSpots counts the spots that lie in both placements.
func sharedSpots(a, b *stand) int {
	shared := 0
	for i := range a.frets {
		shared += bits.OnesCount64(a.frets[i] & b.frets[i])
	}
	return shared
}
