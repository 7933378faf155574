package hear

import "math"

// spectrumN is the length of the transform behind a spectrum and binHz the
// distance of its bins, 7.8 Hz. Stretches of sound are shorter and padded.
const (
	spectrumN = 2048
	binHz     = float64(rate) / spectrumN
)

// spectrumBins is how much of a spectrum is looked at: up to 4.9 kHz, above
// which a guitar's harmonics no longer tell pitches apart.
const spectrumBins = 625

// A spectrograph takes magnitude spectra of short stretches of sound.
type spectrograph struct {
	fft     *transformer
	frame   []float64
	bins    []complex128
	windows map[int][]float32
}

func newSpectrograph() *spectrograph {
	return &spectrograph{
		fft: newTransformer(spectrumN), frame: make([]float64, spectrumN), bins: make([]complex128, spectrumN/2+1),
		windows: map[int][]float32{},
	}
}

// magnitudes writes the spectrum of x under a Hann window, so scaled that a
// sine shows its amplitude whatever the length of x.
func (s *spectrograph) magnitudes(dst []float64, x []float32) {
	x = x[max(0, len(x)-spectrumN):]
	clear(s.frame)
	for i, w := range s.window(len(x)) {
		s.frame[i] = float64(x[i] * w)
	}
	s.fft.forward(s.bins, s.frame)
	for i := range dst {
		re, im := real(s.bins[i]), imag(s.bins[i])
		dst[i] = math.Sqrt(re*re + im*im)
	}
}

// window returns the window for a length; lengths are whole hops, so there
// are few.
func (s *spectrograph) window(n int) []float32 {
	w := s.windows[n]
	if w == nil {
		w = make([]float32, n)
		for i := range w {
			w[i] = float32((1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n))) * 2 / float64(n))
		}
		s.windows[n] = w
	}
	return w
}
