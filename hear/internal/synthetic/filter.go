package synthetic

import "math"

// A Biquad is a second-order filter, normalised by its a0.
type Biquad struct{ b0, b1, b2, a1, a2 float64 }

// LowPass and [HighPass] are R. Bristow-Johnson's (Audio EQ Cookbook, W3C note
// 2021).
func LowPass(hz, q float64) Biquad {
	w := 2 * math.Pi * hz / Rate
	cos, alpha := math.Cos(w), math.Sin(w)/(2*q)
	a0 := 1 + alpha
	return Biquad{(1 - cos) / 2 / a0, (1 - cos) / a0, (1 - cos) / 2 / a0, -2 * cos / a0, (1 - alpha) / a0}
}

// HighPass is the counterpart of [LowPass].
func HighPass(hz, q float64) Biquad {
	w := 2 * math.Pi * hz / Rate
	cos, alpha := math.Cos(w), math.Sin(w)/(2*q)
	a0 := 1 + alpha
	return Biquad{(1 + cos) / 2 / a0, -(1 + cos) / a0, (1 + cos) / 2 / a0, -2 * cos / a0, (1 - alpha) / a0}
}

// Peaking lifts the frequencies around one, or lowers them (the same source).
func Peaking(hz, q, gainDB float64) Biquad {
	w := 2 * math.Pi * hz / Rate
	cos, alpha, a := math.Cos(w), math.Sin(w)/(2*q), math.Pow(10, gainDB/40)
	a0 := 1 + alpha/a
	return Biquad{(1 + alpha*a) / a0, -2 * cos / a0, (1 - alpha*a) / a0, -2 * cos / a0, (1 - alpha/a) / a0}
}

// Filter returns a filtered sound.
func (f Biquad) Filter(x []float32) []float32 {
	y := make([]float32, len(x))
	var z1, z2 float64
	for i, s := range x {
		in := float64(s)
		out := f.b0*in + z1
		z1 = f.b1*in - f.a1*out + z2
		z2 = f.b2*in - f.a2*out
		y[i] = float32(out)
	}
	return y
}
