package spectral

import "math"

// FluxN is how many samples the flux looks at, 32 ms.
const FluxN = 512

// The flux compares a frame with the one three hops earlier, on a logarithmic
// scale that reaches 60 dB below the recent loudest sound.
const (
	fluxLag    = 3
	fluxDepth  = 1000
	fluxForget = 0.9985 // of the loudest, per hop: 60 dB in 23 s
	fluxQuiet  = 1e-3   // amplitude; softer takes are not amplified further
	fluxLowest = 2      // bins below 60 Hz hold hum and thumps
)

// A FluxMeter measures how much sound each hop brings that was in no
// neighbouring bin before: spectral flux with a maximum filter, which ignores
// slides and vibrato (Böck and Widmer, DAFx 2013).
type FluxMeter struct {
	fft     *transform
	window  []float64
	frame   []float64
	bins    []complex128
	past    [fluxLag + 1][]float64 // compressed magnitudes, newest first
	loudest float64
}

// NewFluxMeter returns a meter that has heard silence.
func NewFluxMeter() *FluxMeter {
	f := &FluxMeter{
		fft: newTransform(FluxN), window: make([]float64, FluxN), frame: make([]float64, FluxN),
		bins: make([]complex128, FluxN/2+1), loudest: fluxQuiet * FluxN / 4,
	}
	for i := range f.window {
		f.window[i] = 0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/FluxN)
	}
	for i := range f.past {
		f.past[i] = make([]float64, FluxN/2+1)
	}
	return f
}

// Measure takes the last FluxN samples of the next hop and returns their flux.
func (f *FluxMeter) Measure(x []float32) float64 {
	for i, w := range f.window {
		f.frame[i] = float64(x[i]) * w
	}
	f.fft.forward(f.bins, f.frame)
	now := f.past[fluxLag]
	copy(f.past[1:], f.past[:fluxLag])
	f.past[0] = now
	top := 0.0
	for i, b := range f.bins {
		now[i] = real(b)*real(b) + imag(b)*imag(b)
		top = max(top, now[i])
	}
	f.loudest = max(f.loudest*fluxForget, math.Sqrt(top), fluxQuiet*FluxN/4)
	scale := fluxDepth / f.loudest
	for i, power := range now {
		now[i] = math.Log1p(scale * math.Sqrt(power))
	}
	before := f.past[fluxLag]
	sum := 0.0
	for i := fluxLowest; i < len(now)-1; i++ {
		sum += max(0, now[i]-max(before[i-1], before[i], before[i+1]))
	}
	return sum / float64(len(now))
}
