package dsp

import "math"

// Step rises smoothly from 0 at 0 to 1 at 1.
func Step(x float64) float32 {
	if x <= 0 {
		return 0
	}
	if x >= 1 {
		return 1
	}
	return float32(x * x * (3 - 2*x))
}

// FadeTail brings the last samples to nothing.
func FadeTail(s []float32) {
	const n = 16
	for i := range min(n, len(s)) {
		s[len(s)-1-i] *= float32(i) / n
	}
}

// FadeHead brings the first n samples up from nothing.
func FadeHead(s []float32, n int) {
	for i := range min(n, len(s)) {
		s[i] *= Step(float64(i) / float64(n))
	}
}

// Turn returns a vector's length and what each sample turns and shrinks it by.
func Turn(level, hz, fallS, rate float64) (x, c, s float64) {
	r := math.Exp(-1 / (fallS * rate))
	w := 2 * math.Pi * hz / rate
	return level, r * math.Cos(w), r * math.Sin(w)
}

// RMS returns the root of the mean square of the tone that a push becomes once
// it goes round: whatever lies one period apart adds up.
func RMS(s []float32, period float64) float64 {
	n := int(math.Round(period))
	sum := 0.0
	for i := range min(n, len(s)) {
		x := 0.0
		for j := i; j < len(s); j += n {
			x += float64(s[j])
		}
		sum += x * x
	}
	return math.Sqrt(sum / period)
}

// Scale multiplies samples by a gain.
func Scale(s []float32, gain float64) {
	g := float32(gain)
	for i := range s {
		s[i] *= g
	}
}
