package pluck

import (
	"heddle/pitch"
	"heddle/sound/dsp"
)

// A glide is a slide under way: the string grows longer or shorter with every
// sample, along a smooth step.
type glide struct {
	from, to float64 // periods in samples
	key      float64 // where it goes
	left     int     // samples still to come
	length   int
}

// slide makes the string glide to a key over n samples.
func (v *vibration) slide(key float64, n int) {
	v.glide = glide{from: v.rate / pitch.Frequency(v.key), to: v.rate / pitch.Frequency(key), key: key, left: n, length: n}
}

// glideOn makes samples of a sliding string. Each has taps of its own; were
// they held even for a few samples, the steps would be heard.
func (v *vibration) glideOn(out []float32) int {
	g := &v.glide
	n := min(len(out), g.left)
	g0, h := lossTaps(v.losses, pitch.Frequency(v.glide.key), v.rate)
	loss := [3]float64{g0 * h, g0 * (1 - 2*h), g0 * h}
	for i := range n {
		g.left--
		way := float64(dsp.Step(1 - float64(g.left)/float64(g.length)))
		period := g.from + (g.to-g.from)*way
		v.lag = int(period - lossDelay - 1)
		taps := loopFilter(loss, period-lossDelay-float64(v.lag))
		y := 0.0
		for k, t := range taps {
			y += t * float64(v.wave[v.end-v.lag-k])
		}
		v.wave[v.end] = float32(y)
		v.end++
		out[i] += float32(y)
	}
	if g.left == 0 {
		v.tune(g.key)
	}
	return n
}
