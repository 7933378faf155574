package weave

import "math"

// mostScales is the size of the largest vocabulary.
const mostScales = 3

// vocabularies tries every vocabulary of one to three scales whose lower bound does not
// rule it out. The bound is the price of its scales, of the notes that none of them has,
// and of all other notes in the smallest scale.
func (s *search) vocabularies() {
	p := newPaths(s)
	all, homes := len(s.candidates), len(s.candidates)
	if s.known {
		homes = 1
	}
	for a := range homes {
		p.try(s.prices[a], a)
	}
	for a := range homes {
		for b := a + 1; b < all; b++ {
			p.try(s.prices[a]+s.prices[b]+costScale+s.mixed(a, b), a, b)
		}
	}
	for a := range homes {
		for b := a + 1; b < all; b++ {
			two := s.prices[a] + s.prices[b] + 2*costScale
			union := s.candidates[a].classes | s.candidates[b].classes
			for c := b + 1; c < all; c++ {
				// The cheap part of the bound first: it rules out most.
				if three := two + s.prices[c]; three+costOutside*float64(s.missing[union|s.candidates[c].classes]) < s.limit() {
					p.try(three+s.mixed(a, b, c), a, b, c)
				}
			}
		}
	}
}

// paths finds the cheapest path of a vocabulary. Its memory is used again.
type paths struct {
	*search
	back   [][mostScales]int8 // for each note and scale, the scale of the note before
	scales []int
}

func newPaths(s *search) *paths {
	return &paths{search: s, back: make([][mostScales]int8, len(s.classes)), scales: make([]int, len(s.classes))}
}

// try offers the best path of a vocabulary whose scales cost a price.
func (p *paths) try(price float64, vocabulary ...int) {
	union, least := classes(0), math.Inf(1)
	for _, c := range vocabulary {
		union |= p.candidates[c].classes
		least = min(least, p.candidates[c].large)
	}
	out := float64(p.missing[union])
	if price+out*costOutside+(float64(len(p.classes))-out)*least >= p.limit() {
		return
	}
	cost, last := p.sweep(0, vocabulary, p.limit()-price)
	if price+cost >= p.limit() {
		return
	}
	p.trace(0, last, vocabulary)
	p.offer(solution{cost: price + cost, scales: p.scales})
}

// sweep finds the cheapest path through the notes from one on (Bellman 1957) and returns
// its cost and the scale of its last note. It stops where the cost reaches a limit.
func (p *paths) sweep(from int, vocabulary []int, limit float64) (cost float64, last int) {
	var total [mostScales]float64
	for i := from; i < len(p.classes); i++ {
		cheapest := 0
		for k := range vocabulary {
			if total[k] < total[cheapest] {
				cheapest = k
			}
		}
		if total[cheapest] >= limit {
			return limit, 0
		}
		base := total[cheapest] + costChange
		if i == from {
			base = math.Inf(1)
		}
		for k, c := range vocabulary {
			at := int8(k)
			if i > from {
				total[k] += costSkip * float64(min(mostSkipped, (p.between[i]&p.candidates[c].classes).size()))
			}
			if base < total[k] {
				total[k], at = base, int8(cheapest)
			}
			p.back[i][k] = at
			if p.candidates[c].has(p.classes[i]) {
				total[k] += p.candidates[c].large
			} else {
				total[k] += costOutside
			}
		}
	}
	for k := range vocabulary {
		if total[k] < total[last] {
			last = k
		}
	}
	return total[last], last
}

// trace writes the path that sweep found into scales.
func (p *paths) trace(from, last int, vocabulary []int) {
	for i := len(p.classes) - 1; i >= from; i-- {
		p.scales[i] = vocabulary[last]
		last = int(p.back[i][last])
	}
}
