package pluck

import "math"

// Losses are what a string loses as it sounds, in dB/s: a floor at the lowest
// frequencies and, above a corner, a plateau more. Real strings lose to the air
// and the bridge over a wide band and by friction within at the top (Fletcher and
// Rossing 1998, §2.12); what recorded ones lose is in doc/sound.md.
type losses struct {
	floor, plateau float64
	corner         float64 // in partials of what sounds: where half the plateau is reached
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

// gain is what is left of the lowest frequencies after one time round.
func (l losses) gain(hz float64) float64 { return math.Exp(-l.floor / neper / hz) }

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
