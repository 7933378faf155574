// Package synthetic makes sound whose notes are known: plucked model strings, and
// the rooms, noises and filters that recordings go through. Tests, the evaluation
// and the fitting of package hear use it. Sound is in one channel, at [Rate] unless
// a rate is given.
package synthetic

import (
	"math"
	"math/rand/v2"
)

// Rate is the usual sample rate, in Hz.
const Rate = 44100

// A Stroke is one plucked note of a model string.
type Stroke struct {
	OnS    float64
	OffS   float64 // when it is damped; 0 for never
	Key    float64 // MIDI, with its fraction
	Level  float64
	Bright float64 // share of each round trip's loss that the low-pass takes, 0 for 0.5
}

// Pluck plays strings by the extended Karplus-Strong model (Jaffe and Smith
// 1983): a pulse and its mirror in a tuned delay line with a one-zero low-pass
// and a pick position. It shares nothing with recorded guitars, so that what holds
// for it holds for strings and not for one collection of recordings.
func Pluck(notes []Stroke, lengthS float64, rate int) []float32 {
	out := make([]float32, int(lengthS*float64(rate)))
	for _, n := range notes {
		pluckOne(out, n, rate, rand.New(rand.NewPCG(1, 7)))
	}
	return out
}

func pluckOne(out []float32, n Stroke, rate int, r *rand.Rand) {
	frequency := 440 * math.Exp2((n.Key-69)/12)
	period := float64(rate) / frequency
	blend := n.Bright
	if blend == 0 {
		blend = 0.5
	}
	// The low-pass delays by blend of a sample, an all-pass tunes the rest.
	whole := int(period - blend - 0.3)
	part := period - blend - float64(whole)
	tune := (1 - part) / (1 + part)
	// The string springs from the pick: one pulse to the bridge and its
	// mirror from the nut, a seventh of the string apart, with a little
	// noise of the pick. Thick strings are plucked with more flesh.
	line := make([]float64, whole)
	width := max(3, int(0.0006*float64(rate)), whole/12)
	for i := range min(width, whole) {
		pulse := 0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(width))
		line[i] += pulse
		line[(i+max(1, whole/7))%whole] -= pulse
	}
	for i := range line {
		line[i] += 0.04 * (r.Float64() - 0.5)
	}
	decay := math.Pow(0.001, 1/(2.5*frequency)) // 60 dB in two and a half seconds
	last, apIn, apOut, gain := 0.0, 0.0, 0.0, n.Level
	start := int(math.Round(n.OnS * float64(rate)))
	damp := math.Pow(0.001, 1/(0.06*float64(rate)))
	for k := 0; start+k < len(out); k++ {
		x := line[k%whole]
		low := decay * ((1-blend)*x + blend*last)
		last = x
		y := tune*low + apIn - tune*apOut
		apIn, apOut = low, y
		line[k%whole] = y
		if n.OffS > 0 && float64(start+k) > n.OffS*float64(rate) {
			gain *= damp
		}
		out[start+k] += float32(gain * x * 0.5)
	}
}
