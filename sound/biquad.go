package sound

import "math"

// A biquad is a filter of second order. Coefficients are those of the audio
// EQ cookbook (Bristow-Johnson; W3C note of 2021), divided by a₀.
type biquad struct {
	b0, b1, b2, a1, a2 float64
	s1, s2             float64 // transposed direct form II
}

// filter filters samples in place.
func (f *biquad) filter(s []float32) {
	s1, s2 := f.s1, f.s2
	for i, in := range s {
		x := float64(in)
		y := f.b0*x + s1
		s1 = f.b1*x - f.a1*y + s2
		s2 = f.b2*x - f.a2*y
		s[i] = float32(y)
	}
	f.s1, f.s2 = s1, s2
}

// cascade filters samples in place through one filter after another, two at a
// time: while one waits for its last sample, the other works.
func cascade(s []float32, filters []*biquad) {
	for ; len(filters) >= 2; filters = filters[2:] {
		f, g := *filters[0], *filters[1]
		for i, in := range s {
			x := float64(in)
			y := f.b0*x + f.s1
			f.s1 = (f.b1*x + f.s2) - f.a1*y
			f.s2 = f.b2*x - f.a2*y
			z := g.b0*y + g.s1
			g.s1 = (g.b1*y + g.s2) - g.a1*z
			g.s2 = g.b2*y - g.a2*z
			s[i] = float32(z)
		}
		*filters[0], *filters[1] = f, g
	}
	for _, f := range filters {
		f.filter(s)
	}
}

// biquadOf divides by a0.
func biquadOf(b0, b1, b2, a0, a1, a2 float64) *biquad {
	return &biquad{b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: a1 / a0, a2: a2 / a0}
}

// angle returns cos ω and α for a corner and a Q. Corners above what the
// rate can hold are brought down to it.
func angle(hz, q, rate float64) (cos, alpha float64) {
	w := 2 * math.Pi * min(hz/rate, 0.45)
	return math.Cos(w), math.Sin(w) / (2 * q)
}

// lowPass passes what is below a corner.
func lowPass(hz, q, rate float64) *biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf((1-cos)/2, 1-cos, (1-cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// highPass passes what is above a corner.
func highPass(hz, q, rate float64) *biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf((1+cos)/2, -1-cos, (1+cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// bandPass passes a band with a gain of 1 at its middle.
func bandPass(hz, q, rate float64) *biquad {
	cos, alpha := angle(hz, q, rate)
	return biquadOf(alpha, 0, -alpha, 1+alpha, -2*cos, 1-alpha)
}

// peak lifts or lowers a band.
func peak(hz, q, dB, rate float64) *biquad {
	cos, alpha := angle(hz, q, rate)
	a := math.Pow(10, dB/40)
	return biquadOf(1+alpha*a, -2*cos, 1-alpha*a, 1+alpha/a, -2*cos, 1-alpha/a)
}
