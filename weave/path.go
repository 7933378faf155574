package weave

import "math"

// paths finds the cheapest path of scales through a line with a home. It is a shortest
// path over the scales at each note (Bellman 1957): staying in a scale, going back home
// and going from anywhere into another scale are the only moves. Its memory is used
// again.
type paths struct {
	*search
	in     []float64 // for each note and scale, the price of the note in it
	stay   []float64 // the same if the note before was in it too
	enter  []float64 // the price of a visit to each scale
	total  []float64 // of the best path that ends in each scale
	back   []int16   // for each note and scale, the scale of the note before
	scales []int
}

func newPaths(s *search) *paths {
	scales := len(s.candidates)
	p := &paths{
		search: s, in: make([]float64, 0, scales*len(s.keys)), stay: make([]float64, 0, scales*len(s.keys)),
		enter: make([]float64, scales), total: make([]float64, scales), back: make([]int16, scales*len(s.keys)), scales: make([]int, len(s.keys)),
	}
	for i, class := range s.classes {
		for _, c := range s.candidates {
			price := costOutside
			if c.has(class) {
				price = c.large
			}
			p.in = append(p.in, price)
			p.stay = append(p.stay, price+costSkip*float64(min(mostSkipped, (s.between[i]&c.classes).size())))
		}
	}
	return p
}

// freely tries the path of every home.
func (p *paths) freely() {
	for home := range p.homes() {
		price := p.prices[home]
		for c := range p.enter {
			p.enter[c] = costScale + p.prices[c] + p.mixed(home, c)
		}
		p.enter[home] = 0
		cost, last := p.sweep(0, p.limit()-price)
		if price+cost < p.limit() {
			p.trace(0, last)
			p.offer(solution{cost: price + cost, scales: p.scales, home: home})
		}
	}
}

// homes returns how many of the candidates may be home.
func (s *search) homes() int {
	if s.known {
		return 1
	}
	return len(s.candidates)
}

// sweep finds the cheapest path through the notes from one on and returns its cost and
// the scale of its last note; infinite if the cost reaches a limit.
func (p *paths) sweep(from int, limit float64) (cost float64, last int) {
	scales := len(p.total)
	for c := range p.total {
		p.total[c] = p.enter[c] + p.in[from*scales+c]
	}
	for i := from + 1; i < len(p.keys); i++ {
		cheapest := p.cheapest()
		if p.total[cheapest] >= limit {
			return math.Inf(1), cheapest
		}
		base := p.total[cheapest] + costChange
		in, stay, back := p.in[i*scales:][:scales], p.stay[i*scales:][:scales], p.back[i*scales:][:scales]
		for c, total := range p.total {
			stayed, entered := total+stay[c], base+p.enter[c]+in[c]
			back[c] = int16(c)
			if entered < stayed {
				stayed, back[c] = entered, int16(cheapest)
			}
			p.total[c] = stayed
		}
	}
	last = p.cheapest()
	return p.total[last], last
}

func (p *paths) cheapest() int {
	best, least := 0, math.Inf(1)
	for c, total := range p.total {
		if total < least {
			best, least = c, total
		}
	}
	return best
}

// trace writes the path that sweep found into scales.
func (p *paths) trace(from, last int) {
	for i := len(p.keys) - 1; i > from; i-- {
		p.scales[i] = last
		last = int(p.back[i*len(p.total)+last])
	}
	p.scales[from] = last
}

// rest returns the cost of the notes after a pattern and writes their path through the
// pattern's scales, which may be visited freely.
func (p *paths) rest(from int, limit float64, scales ...int) float64 {
	if from == len(p.keys) {
		return 0
	}
	for c := range p.enter {
		p.enter[c] = math.Inf(1)
	}
	for _, c := range scales {
		p.enter[c] = 0
	}
	cost, last := p.sweep(from, limit)
	p.trace(from, last)
	return cost
}
