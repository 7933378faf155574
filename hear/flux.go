package hear

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

const fluxN = 512

// A fluxMeter measures how much new sound each frame brings.
type fluxMeter struct {
	fft    *fourier.FFT
	window []float64
	frame  []float64
	bins   []complex128
	past   [][]float64 // log magnitudes of earlier frames, newest first
	peak   float64
	mags   []float64
}

func newFluxMeter() *fluxMeter {
	f := &fluxMeter{fft: fourier.NewFFT(fluxN), window: make([]float64, fluxN), frame: make([]float64, fluxN), bins: make([]complex128, fluxN/2+1)}
	for i := range f.window {
		f.window[i] = 0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/fluxN)
	}
	f.mags = make([]float64, fluxN/2+1)
	for range 4 {
		f.past = append(f.past, make([]float64, fluxN/2+1))
	}
	return f
}

func (f *fluxMeter) measure(x []float32) float64 {
	x = x[len(x)-fluxN:]
	for i, s := range x {
		f.frame[i] = float64(s) * f.window[i]
	}
	f.fft.Coefficients(f.bins, f.frame)
	top := 0.0
	for i, b := range f.bins {
		f.mags[i] = cmplx.Abs(b)
		top = max(top, f.mags[i])
	}
	f.peak = max(f.peak*0.998, top, 1e-3)
	now := f.past[len(f.past)-1]
	copy(f.past[1:], f.past)
	f.past[0] = now
	scale := 1000 / f.peak
	for i, m := range f.mags {
		now[i] = math.Log1p(scale * m)
	}
	before := f.past[3]
	sum := 0.0
	for i := 2; i < len(now)-1; i++ {
		ref := max(before[i-1], before[i], before[i+1])
		if d := now[i] - ref; d > 0 {
			sum += d
		}
	}
	return sum / float64(len(now))
}
