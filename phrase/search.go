package phrase

import (
	"math"

	"heddle/line"
)

// The search finds the cheapest phrase of each rhythm in two passes, as package landing
// does. The first goes back from the landing and finds the price of the cheapest
// remainder after every note and the step to it (Bellman's principle), without the rule
// of the highest note and the distance between dips. The second goes forward and always
// extends the phrase whose total is cheapest (A*, Hart, Nilsson & Raphael 1968): what it
// completes first in a rhythm is the cheapest there.

// The steps that lead to a note: from widest down to widest up, or none for the first.
const (
	noStep   = 2*widest + 1
	allSteps = noStep + 1
)

// moves are the prices of steps by whether a rest comes before, by the step before and
// by the step.
var moves = priceMoves()

func priceMoves() (table [2][allSteps][noStep]float64) {
	for fresh := range 2 {
		for before := range allSteps {
			for step := -widest; step <= widest; step++ {
				price := stepPrice(before-widest, step, fresh == 1)
				if before == noStep {
					price = stepPrice(0, step, true)
				}
				if before == widest && step == 0 {
					price = math.Inf(1) // three times in a row
				}
				table[fresh][before][step+widest] = price
			}
		}
	}
	return table
}

// move returns the price of a step to an event; infinite for one that is too wide.
func (e *event) move(before, step int) float64 {
	if step < -widest || step > widest {
		return math.Inf(1)
	}
	if e.fresh {
		return moves[1][before][step+widest]
	}
	return moves[0][before][step+widest]
}

// last is the index of the landing.
func (p *plan) last() int { return len(p.events) - 1 }

// arrive returns the price of a tone of an event after a step; of the landing, with what
// leads to it.
func (p *plan) arrive(e, tone, before, step int) float64 {
	price := p.events[e].prices[tone]
	if e < p.last() {
		return price + p.events[e].move(before, step)
	}
	switch size := max(step, -step); {
	case size == 0 || size > 2:
		return math.Inf(1)
	case size == 2:
		price += costLastTone
	}
	if before == noStep || !encloses(before-widest, step) {
		price += costBare + p.events[e].move(before, step)
	}
	return price
}

// restAt returns where the least price of the remainder is kept for a tone of an event,
// the step to it, and dips to come.
func (p *plan) restAt(e, tone, before, dips int) int {
	return p.from[e] + (tone*allSteps+before)*(MostDips+1) + dips
}

// sweepBack fills in rest.
func (p *plan) sweepBack(most int, bar line.Beat) {
	p.from = make([]int, len(p.events))
	size := 0
	for e, ev := range p.events {
		p.from[e] = size
		size += len(ev.tones) * allSteps * (MostDips + 1)
	}
	p.rest = make([]float64, size)
	for i := range p.rest {
		p.rest[i] = math.Inf(1)
	}
	for tone := range p.events[p.last()].tones {
		for before := range allSteps {
			p.rest[p.restAt(p.last(), tone, before, 0)] = 0
		}
	}
	for e := p.last() - 1; e >= 0; e-- {
		for i := range p.dips[e] {
			d := &p.dips[e][i]
			for left := range most {
				d.least[left] = math.Inf(1)
				if left == 0 || d.end()+bar <= p.latest[left] {
					d.least[left] = p.leastAfter(d, left)
				}
			}
		}
		for tone := range p.events[e].tones {
			if !math.IsInf(p.events[e].prices[tone], 1) {
				for _, before := range p.stepsTo(e, tone) {
					for left := range most + 1 {
						p.rest[p.restAt(e, tone, before, left)] = p.leastFrom(e, tone, before, left)
					}
				}
			}
		}
	}
}

// stepsTo lists the steps that may lead to a tone of an event.
func (p *plan) stepsTo(e, tone int) []int {
	if e == 0 {
		return []int{noStep}
	}
	var list []int
	key := p.events[e].tones[tone].key
	for step := -widest; step <= widest; step++ {
		possible := step == 1 || step == 2 || step == -1 || step == -2 // home from a dip
		for _, t := range p.events[e-1].tones {
			possible = possible || key-t.key == step
		}
		if possible {
			list = append(list, step+widest)
		}
	}
	return list
}

// leastFrom returns the least price of what follows a tone of an event.
func (p *plan) leastFrom(e, tone, before, left int) float64 {
	least := math.Inf(1)
	key := p.events[e].tones[tone].key
	next := &p.events[e+1]
	for i, t := range next.tones {
		step := t.key - key
		if step < -widest || step > widest {
			continue
		}
		price := p.arrive(e+1, i, before, step)
		if price < least {
			least = min(least, price+p.rest[p.restAt(e+1, i, step+widest, left)])
		}
	}
	if left > 0 {
		for i := range p.dips[e] {
			d := &p.dips[e][i]
			least = min(least, p.enter(d, key, before)+d.least[left-1])
		}
	}
	return least
}

// enter returns the price of a dip after a key, without what follows it.
func (p *plan) enter(d *dip, key, before int) float64 {
	step := d.first - key
	size := max(step, -step)
	if size == 0 || size > 4 {
		return math.Inf(1)
	}
	price := moves[0][before][step+widest] + d.price
	if size > 2 {
		price += costThirdInto
	}
	return price
}

// leave returns the price of coming home from a dip to a tone; infinite if it does not.
func (p *plan) leave(d *dip, tone int) float64 {
	t := p.events[d.home].tones[tone]
	step := t.key - d.last
	switch size := max(step, -step); {
	case size == 0 || size > 2 || !t.comesHome():
		return math.Inf(1)
	case size == 2:
		return p.events[d.home].prices[tone] + costToneOut
	}
	return p.events[d.home].prices[tone]
}

// leastAfter returns the least price of what follows a dip.
func (p *plan) leastAfter(d *dip, left int) float64 {
	least := math.Inf(1)
	for i, t := range p.events[d.home].tones {
		if price := p.leave(d, i); price < least {
			least = min(least, price+p.rest[p.restAt(d.home, i, t.key-d.last+widest, left)])
		}
	}
	return least
}
