package hear

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// spectrumN is the length of a spectrum's transform: 7.8 Hz a bin.
const spectrumN = 2048

const binHz = float64(rate) / spectrumN

// A spectrograph takes magnitude spectra of short stretches of sound.
type spectrograph struct {
	fft     *fourier.FFT
	frame   []float64
	bins    []complex128
	windows map[int][]float64
}

func newSpectrograph() *spectrograph {
	return &spectrograph{
		fft: fourier.NewFFT(spectrumN), frame: make([]float64, spectrumN), bins: make([]complex128, spectrumN/2+1),
		windows: map[int][]float64{},
	}
}

// magnitudes writes the spectrum of x under a Hann window, scaled so that a
// sine has its amplitude.
func (s *spectrograph) magnitudes(dst []float64, x []float32) {
	w := s.window(len(x))
	clear(s.frame)
	for i, v := range x {
		s.frame[i] = float64(v) * w[i]
	}
	s.fft.Coefficients(s.bins, s.frame)
	for i := range dst {
		b := s.bins[i]
		dst[i] = math.Sqrt(real(b)*real(b) + imag(b)*imag(b))
	}
}

func (s *spectrograph) window(n int) []float64 {
	if w := s.windows[n]; w != nil {
		return w
	}
	w := make([]float64, n)
	for i := range w {
		w[i] = (0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n))) * 4 / float64(n)
	}
	s.windows[n] = w
	return w
}
