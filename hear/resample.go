package hear

import "math"

// rate is what all listening works at, in samples a second: enough for the
// fourth harmonic of E6 and for the noise of a pick, a third of the work of
// 48 kHz.
const rate = 16000

// The resampler's filter: windowed sinc with this many zero crossings on each
// side, this many steps between two of them, and a cut-off a little below the
// smaller of the two Nyquist rates. Ripple and images stay below −60 dB,
// which is below the noise of a room.
const (
	sincCrossings = 12
	sincSteps     = 256
	sincCutoff    = 0.92
)

// A resampler turns a stream of samples at one rate into the listening rate
// by band-limited interpolation (Smith, Digital Audio Resampling, 2002).
type resampler struct {
	step   float64 // input samples for each output sample
	width  int     // input samples on each side of an output sample
	taps   []float32
	scale  float64 // table entries for each input sample of distance
	buffer []float32
	at     float64 // where in buffer the next output sample lies
}

func newResampler(from int) *resampler {
	step := float64(from) / rate
	stretch := max(step, 1) / sincCutoff
	r := &resampler{step: step, width: int(math.Ceil(sincCrossings * stretch)), scale: sincSteps / stretch}
	r.taps = make([]float32, sincCrossings*sincSteps+2)
	for i := range r.taps {
		x := float64(i) / sincSteps
		r.taps[i] = float32(sinc(x) * hannHalf(x/sincCrossings) / stretch)
	}
	r.buffer = make([]float32, r.width)
	r.at = float64(r.width)
	return r
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}

// hannHalf is the falling half of a Hann window over 0 to 1, zero beyond.
func hannHalf(x float64) float64 {
	if x >= 1 {
		return 0
	}
	return 0.5 + 0.5*math.Cos(math.Pi*x)
}

// feed takes input samples and appends to dst the output samples that they
// complete.
func (r *resampler) feed(dst, in []float32) []float32 {
	if r.step == 1 {
		return append(dst, in...)
	}
	r.buffer = append(r.buffer, in...)
	for r.at+float64(r.width)+1 < float64(len(r.buffer)) {
		dst = append(dst, r.sample())
		r.at += r.step
	}
	spent := int(r.at) - r.width
	r.buffer = r.buffer[:copy(r.buffer, r.buffer[spent:])]
	r.at -= float64(spent)
	return dst
}

// flush appends the samples that still wait for input that never comes.
func (r *resampler) flush(dst []float32) []float32 {
	if r.step == 1 {
		return dst
	}
	return r.feed(dst, make([]float32, r.width))
}

func (r *resampler) sample() float32 {
	first := int(r.at) - r.width + 1
	in := r.buffer[first : first+2*r.width]
	x := (float64(first) - r.at) * r.scale
	var sum float32
	for _, s := range in {
		sum += s * r.tap(math.Abs(x))
		x += r.scale
	}
	return sum
}

func (r *resampler) tap(x float64) float32 {
	i := int(x)
	if i >= len(r.taps)-1 {
		return 0
	}
	part := float32(x - float64(i))
	return r.taps[i] + part*(r.taps[i+1]-r.taps[i])
}
