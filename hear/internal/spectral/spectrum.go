// Package spectral measures short stretches of sound: magnitude spectra,
// spectral flux, and similarity to itself at each lag. All sound has Rate
// samples a second, in one channel between −1 and 1.
package spectral

import "math"

// Rate is the sample rate of all measurements, in Hz: enough for the fourth
// harmonic of E6 and for the noise of a pick, at a third of the work of 48 kHz.
const Rate = 16000

// Time runs in hops of 5 ms.
const (
	Hop  = Rate / 200
	HopS = float64(Hop) / Rate
)

// Stretches of sound are padded to spectrumN samples, so that bins are BinHz
// (7.8 Hz) apart. Spectra end at 4.9 kHz: above it a guitar's harmonics no
// longer tell pitches apart.
const (
	spectrumN = 2048
	BinHz     = float64(Rate) / spectrumN
	Bins      = 625
)

// A Spectrograph computes magnitude spectra of short stretches of sound.
type Spectrograph struct {
	fft     *transform
	frame   []float64
	bins    []complex128
	windows map[int][]float32 // by length; lengths are whole hops, so there are few
}

// NewSpectrograph returns a spectrograph.
func NewSpectrograph() *Spectrograph {
	return &Spectrograph{
		fft: newTransform(spectrumN), frame: make([]float64, spectrumN), bins: make([]complex128, spectrumN/2+1),
		windows: map[int][]float32{},
	}
}

// Magnitudes writes the spectrum of x under a Hann window, scaled so that a sine
// shows its amplitude whatever the length of x.
func (s *Spectrograph) Magnitudes(dst []float64, x []float32) {
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

func (s *Spectrograph) window(n int) []float32 {
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

// Decibels is the power of a stretch of sound against full scale.
func Decibels(x []float32) float64 {
	sum := 0.0
	for _, s := range x {
		sum += float64(s) * float64(s)
	}
	return 10 * math.Log10(sum/float64(max(len(x), 1))+1e-12)
}
