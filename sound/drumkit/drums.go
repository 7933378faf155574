package drumkit

import (
	"math"

	"heddle/sound/dsp"
)

// kickDrum is a skin whose pitch falls as its tension does, and the beater.
func kickDrum(d *dsp.Dice, rate float64) []float32 {
	const lengthS, fallS, decayS = 0.32, 0.022, 0.085
	low, high := d.Near(50, 0.02), d.Near(120, 0.05)
	s := make([]float32, int(lengthS*rate))
	phase, bend, g := 0.0, high-low, 1.0
	bendFall, fall := math.Exp(-1/(fallS*rate)), math.Exp(-1/(decayS*rate))
	for i := range s {
		phase += 2 * math.Pi * (low + bend) / rate
		bend *= bendFall
		g *= fall
		s[i] = float32(math.Sin(phase) * g)
	}
	beater := hiss(int(0.02*rate), 0.5, 0.0022, d, rate)
	dsp.LowPass(3500, 0.7, rate).Filter(beater)
	mixIn(s, beater)
	finish(s, rate)
	return s
}

// snareDrum is two modes of the skin and the snares, which answer longer the
// harder it is struck.
func snareDrum(d *dsp.Dice, rate, force float64) []float32 {
	s := make([]float32, int((0.12+0.16*force)*rate))
	ring(s, []mode{
		{d.Near(188, 0.02), 0.7, 0.045}, {d.Near(331, 0.02), 0.4, 0.03}, {d.Near(530, 0.03), 0.15, 0.02},
	}, rate)
	snares := hiss(len(s), 0.9, 0.028+0.03*force, d, rate)
	dsp.HighPass(1400, 0.7, rate).Filter(snares)
	dsp.Peak(4200, 0.8, 5, rate).Filter(snares)
	dsp.LowPass(5500+4500*force, 0.6, rate).Filter(snares)
	mixIn(s, snares)
	finish(s, rate)
	return s
}

// stick is the stick laid across the snare and struck on its rim.
func stick(d *dsp.Dice, rate float64) []float32 {
	s := make([]float32, int(0.09*rate))
	ring(s, []mode{
		{d.Near(480, 0.02), 0.5, 0.012}, {d.Near(1680, 0.02), 0.9, 0.009}, {d.Near(2730, 0.03), 0.4, 0.006},
	}, rate)
	mixIn(s, hiss(len(s)/4, 0.25, 0.002, d, rate))
	finish(s, rate)
	return s
}

// brush is wire on the skin: noise that swells and falls.
func brush(d *dsp.Dice, rate, riseS, fallS float64) []float32 {
	n := int((riseS + 3.2*fallS) * rate)
	s := hiss(n, 0.8, 1e3, d, rate)
	for i := range s {
		x := float64(i) / rate
		g := float64(dsp.Step(x / riseS))
		if x > riseS {
			g = math.Exp(-(x - riseS) / fallS * 2)
		}
		s[i] *= float32(g)
	}
	dsp.HighPass(900, 0.6, rate).Filter(s)
	dsp.LowPass(6500, 0.6, rate).Filter(s)
	finish(s, rate)
	return s
}
