package weave

import (
	"math"
	"slices"
)

// patterns tries every regular pattern of two or three scales, from the first note on.
// Its changes are free; the notes after it are read as a path through its scales.
func (p *paths) patterns() {
	p.run()
	for scales := 2; scales <= mostScales; scales++ {
		shapes(scales, func(sh shape) { p.rounds(p.divide(sh)) })
	}
}

// mostScales is how many scales a pattern takes in turn at the most.
const mostScales = 3

// rounds tries the scales that can have made the groups, for every number of groups that
// some scale stops at.
func (p *paths) rounds(g grouping) {
	scales := len(g.sizes)
	fewest := fewestRounds * scales
	if len(g.groups) < fewest {
		return
	}
	var reach [mostScales][]int // of each candidate
	ends := []int{}
	for turn := range scales {
		reach[turn] = make([]int, len(p.candidates))
		for c, own := range p.candidates {
			if p.known && turn == 0 && c > 0 {
				break // the first group is from home
			}
			reach[turn][c] = p.follows(g, turn, own.classes)
			if reach[turn][c] >= fewest && !slices.Contains(ends, reach[turn][c]) {
				ends = append(ends, reach[turn][c])
			}
		}
		if len(ends) == 0 {
			return
		}
	}
	slices.Sort(ends)
	for _, groups := range ends {
		if upTo := g.groups[groups-1].end; upTo >= fewestWoven && len(p.classes)-upTo <= longestTail {
			p.round(g, groups, reach)
		}
	}
}

// round offers the cheapest scales for the first groups.
func (p *paths) round(g grouping, groups int, reach [mostScales][]int) {
	var played [mostScales]classes
	var counts [mostScales]int
	for _, one := range g.groups[:groups] {
		played[one.turn] |= one.played
		counts[one.turn] += one.end - one.first
	}
	for turn := range g.sizes {
		for other := range turn {
			if union := played[turn] | played[other]; union == played[turn] || union == played[other] {
				return // one scale would do for both
			}
		}
	}
	best, price := p.cheapestFor(groups, reach, counts, len(g.sizes))
	price += costPattern + costScale*float64(len(g.sizes)-1)
	if slices.Min(g.sizes) != slices.Max(g.sizes) {
		price += costUneven
	}
	if price >= p.limit() {
		return
	}
	cost := p.rest(g.groups[groups-1].end, p.limit()-price, best...)
	for _, one := range g.groups[:groups] {
		for i := one.first; i < one.end; i++ {
			p.scales[i] = best[one.turn]
		}
	}
	p.offer(solution{cost: price + cost, scales: p.scales, home: best[0], pattern: p.pattern(g, groups, best)})
}

// cheapestFor returns the cheapest scale for each turn, of those that reach the groups, and
// their price; infinite if there is none for a turn. Scales of one kind are cheaper.
func (p *paths) cheapestFor(groups int, reach [mostScales][]int, counts [mostScales]int, turns int) (best []int, price float64) {
	price = math.Inf(1)
	for _, kind := range append([]classes{0}, p.kinds...) { // 0 is any kind
		scales, sum := make([]int, turns), 0.0
		if kind == 0 {
			sum = costOtherType
		}
		for turn := range turns {
			least := math.Inf(1)
			for c, own := range p.candidates {
				if reach[turn][c] < groups || kind != 0 && kind != own.kind {
					continue
				}
				if price := p.prices[c] + float64(counts[turn])*own.large; price < least {
					least, scales[turn] = price, c
				}
			}
			sum += least
		}
		if sum < price {
			best, price = scales, sum
		}
	}
	return best, price
}
