package drumkit

import (
	"math"
	"slices"

	"heddle/sound/dsp"
)

// A mode is one way a struck thing rings.
type mode struct {
	hz, level, decayS float64
}

// ringFalls is how many times a mode falls by e before it is dropped, at −65 dB.
const ringFalls = 7.5

// ring adds modes to s, each a sine that falls by e in its decay time, made
// by turning a vector: z ← z·r·e^(jω). Two are made at a time, so that neither
// waits for its own last sample.
func ring(s []float32, modes []mode, rate float64) {
	modes = slices.DeleteFunc(modes, func(m mode) bool { return m.hz > 0.45*rate })
	if len(modes)%2 == 1 {
		modes = append(modes, mode{hz: 1000, decayS: 0.001}) // of no level
	}
	for ; len(modes) > 0; modes = modes[2:] {
		x, c, q := dsp.Turn(modes[0].level, modes[0].hz, modes[0].decayS, rate)
		u, d, p := dsp.Turn(modes[1].level, modes[1].hz, modes[1].decayS, rate)
		y, v := 0.0, 0.0
		n := int(ringFalls * max(modes[0].decayS, modes[1].decayS) * rate)
		for i := range s[:min(len(s), n)] {
			x, y = c*x-q*y, q*x+c*y
			u, v = d*u-p*v, p*u+d*v
			s[i] += float32(y + v)
		}
	}
}

// hiss returns noise that falls by e in its decay time.
func hiss(n int, level, decayS float64, d *dsp.Dice, rate float64) []float32 {
	s := make([]float32, n)
	g, fall := float32(level), float32(math.Exp(-1/(decayS*rate)))
	for i := range s {
		s[i] = d.Noise() * g
		g *= fall
	}
	return s
}

// mixIn adds b to a.
func mixIn(a, b []float32) {
	for i, x := range b[:min(len(a), len(b))] {
		a[i] += x
	}
}

// finish takes out what lies below hearing, lets the sound begin and end at
// nothing, and brings its peak to 1.
func finish(s []float32, rate float64) {
	dsp.HighPass(28, 0.7, rate).Filter(s)
	tail := min(len(s), int(0.02*rate))
	for i := range tail {
		s[len(s)-1-i] *= float32(i) / float32(tail)
	}
	rise := int(0.0004 * rate)
	for i := range min(rise, len(s)) {
		s[i] *= float32(i) / float32(rise)
	}
	top := float32(0)
	for _, x := range s {
		top = max(top, x, -x)
	}
	if top > 0 {
		dsp.Scale(s, 1/float64(top))
	}
}
