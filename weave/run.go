package weave

import "heddle/line"

// fewestInRun is how many notes make a run: more than an octave of most scales.
const fewestInRun = 8

// run tries the plain run through the union of two scales: a line that goes one way, or
// one way and back, through every note of the union. A note of both belongs to the scale
// that was not played last, as in package line.
func (p *paths) run() {
	upTo, union := p.longestRun()
	if upTo < fewestInRun || len(p.classes)-upTo > longestTail {
		return
	}
	for a := range p.candidates {
		if p.known && a > 0 {
			return
		}
		for b := a + 1; b < len(p.candidates); b++ {
			if p.candidates[a].classes|p.candidates[b].classes == union {
				p.runThrough(a, b, upTo)
			}
		}
	}
}

// longestRun returns how many notes from the first move through every note of their own
// union, and that union. They may turn once.
func (p *paths) longestRun() (upTo int, union classes) {
	upTo, turns, before := 1, 0, 0
	for ; upTo < len(p.classes); upTo++ {
		step := p.keys[upTo] - p.keys[upTo-1]
		if step*before < 0 {
			turns++
		}
		if step == 0 || turns > 1 {
			break
		}
		before = step
	}
	for {
		union = 0
		for _, class := range p.classes[:upTo] {
			union |= 1 << class
		}
		broken := 0
		for i := 1; i < upTo && broken == 0; i++ {
			if p.between[i]&union != 0 {
				broken = i
			}
		}
		if broken == 0 {
			return upTo, union
		}
		upTo = broken
	}
}

// runThrough offers the run as one through two scales.
func (p *paths) runThrough(a, b, upTo int) {
	price := p.prices[a] + p.prices[b] + costScale + p.mixed(a, b) + costRun
	cost := p.rest(upTo, p.limit()-price, a, b)
	last := b
	for i, class := range p.classes[:upTo] {
		at := a
		if inA, inB := p.candidates[a].has(class), p.candidates[b].has(class); inA && inB && last == a || !inA {
			at = b
		}
		p.scales[i], last = at, at
		price += p.candidates[at].large
	}
	p.offer(solution{cost: price + cost, scales: p.scales, home: a, pattern: &Pattern{Groups: []int{line.Run}, Order: "straight", Follow: line.FollowFirst, Direction: direction(p.keys[1] > p.keys[0], p.keys[upTo-1] > p.keys[upTo-2]), From: 1, To: upTo}})
}
