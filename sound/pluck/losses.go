package pluck

import "math"

// Losses are what a string loses as it sounds, each in dB/s: a floor at the
// lowest frequencies, a plateau above a corner, and a rise with the square of
// the frequency beyond it. Real strings lose to the air and the bridge over a
// wide band and by friction within at the top (Fletcher and Rossing 1998, §2.12).
type losses struct {
	floor, plateau float64
	corner         float64 // in partials of what sounds: where half the plateau is reached
	square         float64 // dB/s at 10 kHz
}

// muted returns the losses under a palm that rests on the string near the
// bridge, firmly for 1: it takes all partials, the high ones first.
func (l losses) muted(firm float64) losses {
	l.floor += 90 * firm
	l.plateau += 160 * firm
	return l
}

// neper is how many dB a fall by e is.
const neper = 20 / math.Ln10

// fir returns g·[h, 1−2h, h] for a fundamental.
func (l losses) fir(hz, rate float64) [3]float64 {
	g := math.Exp(-l.floor / neper / hz)
	w := 2 * math.Pi * 10000 / rate
	h := min(l.square/neper/hz/(2*(1-math.Cos(w))), mostLossTap)
	return [3]float64{g * h, g * (1 - 2*h), g * h}
}

// shelf returns the filter that adds the plateau.
func (l losses) shelf(hz, rate float64) shelf {
	lost := 1 - math.Exp(-l.plateau/neper/hz)
	w := min(2*math.Pi*l.corner*hz/rate, 2)
	pole := (1 - math.Sin(w)) / math.Cos(w)
	if w > 1.5 {
		pole = 0.03
	}
	return shelf{cut: float32(lost * (1 + pole) / 2), pole: float32(pole)}
}
