package weave

import (
	"math"
	"slices"

	"heddle/line"
)

// A Pattern is a regular pattern that makes notes From to To, counted from 1, by the
// rules of package line: groups of fixed sizes from one to three scales in turn, each of
// consecutive steps in one order, each starting on the nearest note of its scale beyond
// the group before.
type Pattern struct {
	Groups    []int // the first from home; only line.Run for a run through two scales
	Order     string
	Follow    line.Follow
	Direction line.Direction
	From, To  int
}

// The groups that are tried: up to six notes from each of two scales, four from each of
// three, eight from one. A line may go on after its pattern by up to longestTail notes:
// what is left of a group, and a landing.
const (
	mostInOne    = 8
	mostInTwo    = 6
	mostInThree  = 4
	longestTail  = 14
	fewestWoven  = 8 // notes of a pattern of several scales
	fewestRounds = 2
)

// A shape is a pattern without its scales.
type shape struct {
	sizes  []int
	rises  bool
	follow line.Follow
}

// shapes calls try with every shape of some number of scales.
func shapes(scales int, try func(shape)) {
	most := [...]int{0, mostInOne, mostInTwo, mostInThree}[scales]
	sizes := slices.Repeat([]int{1}, scales)
	for {
		for _, rises := range []bool{false, true} {
			for _, follow := range []line.Follow{line.FollowFirst, line.FollowLast} {
				try(shape{slices.Clone(sizes), rises, follow})
			}
		}
		at := scales - 1
		for at >= 0 && sizes[at] == most {
			sizes[at] = 1
			at--
		}
		if at < 0 {
			return
		}
		sizes[at]++
	}
}

// A grouping is a line divided into the groups of a shape, as far as they go.
type grouping struct {
	shape
	groups []group
}

// A group is notes from one scale.
type group struct {
	first, end int // notes first to end−1
	turn       int // which scale's turn it is
	rises      bool
	start      int // the key of step 1
	reference  int // the key that the next group starts beyond
	turns      bool
	played     classes
}

// divide divides the line, in memory that the next call uses again. It may turn once: where a group no longer begins beyond the
// one before, the line goes back (rule 5 of package line).
func (s *search) divide(sh shape) grouping {
	g := grouping{shape: sh, groups: s.groups[:0]}
	rises, turned := sh.rises, false
	for at := 0; ; {
		turn := len(g.groups) % len(sh.sizes)
		end := at + sh.sizes[turn]
		if end > len(s.Notes) {
			s.groups = g.groups
			return g
		}
		one := s.groupOf(at, end, rises, sh.follow)
		if n := len(g.groups); n > 0 && !turned && (one.start >= g.groups[n-1].start) != rises {
			turned, rises = true, !rises
			one = s.groupOf(at, end, rises, sh.follow)
			one.turns = true
		}
		one.turn = turn
		g.groups = append(g.groups, one)
		at = end
	}
}

func (s *search) groupOf(first, end int, rises bool, follow line.Follow) group {
	g := group{first: first, end: end, rises: rises}
	low, high := math.MaxInt, math.MinInt
	for i := first; i < end; i++ {
		low, high = min(low, s.keys[i]), max(high, s.keys[i])
		g.played |= 1 << s.classes[i]
	}
	g.start, g.reference = high, high
	if rises {
		g.start, g.reference = low, low
	}
	if follow == line.FollowLast {
		g.reference = low + high - g.start
	}
	return g
}

// follows returns how many groups of the line go before the first one of the turn that
// the scale can't have made.
func (s *search) follows(g grouping, turn int, scale classes) int {
	for i := turn; i < len(g.groups); i += len(g.sizes) {
		one := g.groups[i]
		if one.played&^scale != 0 {
			return i
		}
		if i > 0 && !one.turns && beyond(g.groups[i-1].reference, scale, one.rises) != one.start {
			return i
		}
		for k := range g.sizes[turn] {
			if step(s.keys[one.first+k], one, scale) != step(s.keys[g.groups[turn].first+k], g.groups[turn], scale) {
				return i
			}
		}
	}
	return len(g.groups)
}

// step returns which step of a group a key of its scale is, from 1.
func step(key int, g group, scale classes) int {
	low, high := min(g.start, key), max(g.start, key)
	steps := 1
	for between := low; between < high; between++ {
		if scale.has(between % 12) {
			steps++
		}
	}
	return steps
}

// beyond returns the nearest key of the scale strictly beyond a key.
func beyond(key int, scale classes, rises bool) int {
	step := -1
	if rises {
		step = 1
	}
	for key += step; !scale.has((key + 24) % 12); key += step {
	}
	return key
}

// order returns the order of the groups of a scale.
func (s *search) order(g grouping, turn int, scale classes) []int {
	first := g.groups[turn]
	steps := make([]int, g.sizes[turn])
	for k := range steps {
		steps[k] = step(s.keys[first.first+k], first, scale)
	}
	return steps
}

// pattern describes the first groups of a line.
func (s *search) pattern(g grouping, groups int, scales []int) *Pattern {
	orders := make([][]int, len(scales))
	for turn, c := range scales {
		orders[turn] = s.order(g, turn, s.candidates[c].classes)
	}
	p := &Pattern{Groups: g.sizes, Order: line.FormatOrder(orders), Follow: g.follow, From: 1, To: g.groups[groups-1].end}
	p.Direction = direction(g.rises, g.groups[groups-1].rises)
	return p
}

// direction returns the direction of a line by how it begins and ends.
func direction(first, last bool) line.Direction {
	switch {
	case first && last:
		return line.Up
	case first:
		return line.UpDown
	case last:
		return line.DownUp
	}
	return line.Down
}

// leastExplained is the least share of a line in one scale that a pattern explains.
const leastExplained = 0.6

// patternInOne returns the pattern that makes the most of a line in one scale, or nil. Of
// two that make as much, it takes the smaller groups, then falling, then following the
// first note.
func (s *search) patternInOne(c int) (best *Pattern) {
	shapes(1, func(sh shape) {
		g := s.divide(sh)
		groups := s.follows(g, 0, s.candidates[c].classes)
		if groups < 2*fewestRounds || float64(g.groups[groups-1].end) < leastExplained*float64(len(s.Notes)) {
			return
		}
		if best == nil || g.groups[groups-1].end > best.To {
			best = s.pattern(g, groups, []int{c})
		}
	})
	return best
}
