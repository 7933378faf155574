// Package dsp holds what the instruments are built from: filters, smooth steps
// and fades, vectors that turn and shrink, and seeded chance.
//
// Rates and corners are in Hz, levels in dB, lengths in samples.
package dsp

import "math"

// A Biquad is a filter of second order. Coefficients are those of the audio
// EQ cookbook (Bristow-Johnson; W3C note of 2021), divided by a₀.
type Biquad struct {
	B0, B1, B2, A1, A2 float64
	s1, s2             float64 // transposed direct form II
}

// Filter filters samples in place.
func (f *Biquad) Filter(s []float32) {
	s1, s2 := f.s1, f.s2
	for i, in := range s {
		x := float64(in)
		y := f.B0*x + s1
		s1 = f.B1*x - f.A1*y + s2
		s2 = f.B2*x - f.A2*y
		s[i] = float32(y)
	}
	f.s1, f.s2 = s1, s2
}

// Cascade filters samples in place through one filter after another, two at a
// time: while one waits for its last sample, the other works.
func Cascade(s []float32, filters []*Biquad) {
	for ; len(filters) >= 2; filters = filters[2:] {
		f, g := *filters[0], *filters[1]
		for i, in := range s {
			x := float64(in)
			y := f.B0*x + f.s1
			f.s1 = (f.B1*x + f.s2) - f.A1*y
			f.s2 = f.B2*x - f.A2*y
			z := g.B0*y + g.s1
			g.s1 = (g.B1*y + g.s2) - g.A1*z
			g.s2 = g.B2*y - g.A2*z
			s[i] = float32(z)
		}
		*filters[0], *filters[1] = f, g
	}
	for _, f := range filters {
		f.Filter(s)
	}
}

// biquadOf divides by a0.
func biquadOf(b0, b1, b2, a0, a1, a2 float64) *Biquad {
	return &Biquad{B0: b0 / a0, B1: b1 / a0, B2: b2 / a0, A1: a1 / a0, A2: a2 / a0}
}

// angle returns cos ω and α for a corner and a Q. Corners above what the
// rate can hold are brought down to it.
func angle(hz, q, rate float64) (cos, alpha float64) {
	w := 2 * math.Pi * min(hz/rate, 0.45)
	return math.Cos(w), math.Sin(w) / (2 * q)
}

// LowPass passes what is below a corner.
func LowPass(hz, q, rate float64) *Biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf((1-cos)/2, 1-cos, (1-cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// HighPass passes what is above a corner.
func HighPass(hz, q, rate float64) *Biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf((1+cos)/2, -1-cos, (1+cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// BandPass passes a band with a gain of 1 at its middle.
func BandPass(hz, q, rate float64) *Biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf(alpha, 0, -alpha, 1+alpha, -2*cos, 1-alpha)
}

// Peak lifts or lowers a band.
func Peak(hz, q, dB, rate float64) *Biquad {
	cos, alpha := angle(hz, q, rate)
	a := math.Pow(10, dB/40)
	return biquadOf(1+alpha*a, -2*cos, 1-alpha*a, 1+alpha/a, -2*cos, 1-alpha/a)
}

// Reset forgets what has passed through the filter.
func (f *Biquad) Reset() { f.s1, f.s2 = 0, 0 }
