package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// A touch is how a string is set going.
type touch struct {
	strength float64 // 0 to 1
	place    float64 // samples of travel between the pick and the bridge and back
	widthS   float64 // seconds over which the pick or finger lets go
	scrape   float64 // noise of the pick against the string, 0 to 1
}

// pushOf returns what a touch puts into a string of the given period, as the
// pick-up hears it.
//
// A string plucked at βL moves, at the bridge, in a square wave that is up
// for β of the period (common physics of the ideal string; Fletcher and
// Rossing 1998, §2.8). With S a smooth step of the pick's width, one period
// of it from rest and back is
//
//	e(t) = (1−β)·S(t) − S(t−βP) + β·S(t−P)
//
// whose mean is zero, so that no direct current goes round the loop. The
// pick-up, which does not move and so picks the wave up twice, and its
// electrical resonance are linear, and so may be applied here once instead of
// on every sample of the sound (commuted synthesis: Smith 1993; Karjalainen,
// Välimäki and Jánosy 1993).
func (p pickup) pushOf(t touch, period, rate float64, d *dsp.Dice) []float32 {
	width := max(t.widthS*rate, 2)
	beta := min(t.place/period, 0.5)
	heard := int(math.Round(p.travelS * rate))
	n := int(math.Ceil(period+width)) + 1
	push := make([]float32, n+heard+int(pickupRingS*rate))
	rise, fall, back := float32(1-beta), float32(-1), float32(beta)
	fallAt := beta * period
	for i := range n {
		x := float64(i)
		push[i] = rise*dsp.Step(x/width) + fall*dsp.Step((x-fallAt)/width) + back*dsp.Step((x-period)/width)
	}
	addScrape(push, t, rate, d)
	for i := len(push) - 1; i >= heard; i-- {
		push[i] -= p.depth * push[i-heard]
	}
	filters := make([]*dsp.Biquad, len(p.tones))
	for i, t := range p.tones {
		filters[i] = t.filter(rate)
	}
	dsp.Cascade(push, filters)
	dsp.FadeTail(push)
	balance(push)
	dsp.Scale(push, t.strength/dsp.RMS(push, period))
	return push
}

// The scrape of a pick: a few milliseconds of noise without any sum.
const scrapeS = 0.004

// addScrape adds the noise of the pick, which rises at once and dies away;
// each sample's noise is taken back by the next, so that it adds up to
// nothing.
func addScrape(push []float32, t touch, rate float64, d *dsp.Dice) {
	n := min(int(scrapeS*rate), len(push)-1)
	if t.scrape == 0 {
		return
	}
	for i := range n {
		x := float32(i+1) / float32(n)
		noise := d.Noise() * float32(t.scrape) * (1 - x) * (1 - x) * min(1, 8*x)
		push[i] += noise
		push[i+1] -= noise
	}
}

// balance takes away what a cut-off tail has left of direct current, which
// would go round the loop for seconds, along a smooth hump.
func balance(push []float32) {
	sum, n := 0.0, float64(len(push))
	for _, x := range push {
		sum += float64(x)
	}
	hump := 2 * sum / n // a raised cosine has half its peak for mean
	for i := range push {
		push[i] -= float32(hump * (0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/n)))
	}
}
