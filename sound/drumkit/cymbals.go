package drumkit

import (
	"math"

	"heddle/sound/dsp"
)

// hatModes is how many modes stand for a pair of hats.
const hatModes = 8

// hat is a pair of small cymbals: a cluster of high modes that fit no scale,
// and the rattle between them.
func hat(d *dsp.Dice, rate, decayS float64) []float32 {
	s := hiss(int((0.02+5*decayS)*rate), 0.8, decayS, d, rate)
	dsp.HighPass(6200, 0.8, rate).Filter(s)
	dsp.LowPass(12500, 0.6, rate).Filter(s)
	modes := make([]mode, hatModes)
	for i := range modes {
		modes[i] = mode{3100 * math.Pow(1.21, float64(i)+0.4*d.Unit()), 0.09, decayS * d.Near(0.8, 0.3)}
	}
	ring(s, modes, rate)
	finish(s, rate)
	return s
}

// rideModes is how many modes stand for a ride cymbal, from 380 Hz to 6 kHz:
// enough that no one pitch is heard. What is higher is in its noise, since
// single high modes would whistle.
const rideModes = 18

// rideCymbal is the tip of the stick on a large cymbal: a clear ping over a
// wash that lasts.
func rideCymbal(d *dsp.Dice, rate float64) []float32 {
	s := make([]float32, int(1.2*rate))
	modes := make([]mode, rideModes)
	for i := range modes {
		hz := 380 * math.Pow(1.165, float64(i)+0.5*d.Swing())
		modes[i] = mode{hz, 0.08 * math.Pow(min(1, hz/2500), 0.7), d.Near(0.36, 0.3) * math.Pow(2000/(2000+hz), 0.6)}
	}
	ring(s, modes, rate)
	wash := hiss(int(0.9*rate), 0.22, 0.2, d, rate)
	dsp.HighPass(4200, 0.7, rate).Filter(wash)
	dsp.LowPass(12500, 0.6, rate).Filter(wash)
	mixIn(s, wash)
	ping := hiss(int(0.03*rate), 0.6, 0.004, d, rate)
	dsp.BandPass(5200, 0.9, rate).Filter(ping)
	mixIn(s, ping)
	finish(s, rate)
	return s
}
