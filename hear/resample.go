package hear

import "math"

// rate is what all listening works at, in samples a second: enough for the
// fourth harmonic of E6 and for the noise of a pick, a third of the work of
// 48 kHz.
const rate = 16000

// The resampler's filter is a sinc under a Hann window with so many zero
// crossings on each side, and a cut-off a little below the smaller of the two
// Nyquist rates. Images stay below −60 dB, under the noise of a room.
const (
	sincCrossings = 12
	sincCutoff    = 0.92
	mostPhases    = 1024 // between two input samples; rates that need more take the nearest
)

// A resampler turns a stream of samples at one rate into the listening rate
// by band-limited interpolation (Smith and Gossett, ICASSP 1984).
type resampler struct {
	from   int
	width  int         // input samples on each side of an output sample
	phases [][]float32 // filters, by how far the output lies after an input sample
	buffer []float32
	at     int // input sample in buffer at or before the next output sample,
	over   int // and how far it lies beyond, in 1/rate of an input sample
}

func newResampler(from int) *resampler {
	stretch := max(float64(from)/rate, 1) / sincCutoff
	r := &resampler{from: from, width: int(math.Ceil(sincCrossings * stretch))}
	count := min(rate/gcd(from, rate), mostPhases)
	for p := range count {
		filter := make([]float32, 2*r.width)
		for i := range filter {
			x := (float64(i-r.width+1) - float64(p)/float64(count)) / stretch
			filter[i] = float32(sinc(x) * hann(x/sincCrossings) / stretch)
		}
		r.phases = append(r.phases, filter)
	}
	r.buffer = make([]float32, r.width)
	r.at = r.width
	return r
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}

// hann is a Hann window over −1 to 1.
func hann(x float64) float64 {
	if math.Abs(x) >= 1 {
		return 0
	}
	return 0.5 + 0.5*math.Cos(math.Pi*x)
}

// feed takes input samples and appends to dst the output samples that they
// complete. Output sample n lies at input sample n·from/rate exactly, however
// long the stream.
func (r *resampler) feed(dst, in []float32) []float32 {
	if r.from == rate {
		return append(dst, in...)
	}
	r.buffer = append(r.buffer, in...)
	for r.at+r.width < len(r.buffer) {
		filter := r.phases[r.over*len(r.phases)/rate]
		dst = append(dst, dot(filter, r.buffer[r.at-r.width+1:]))
		r.over += r.from
		r.at += r.over / rate
		r.over %= rate
	}
	if spent := min(r.at-r.width, len(r.buffer)); spent > 0 {
		r.buffer = r.buffer[:copy(r.buffer, r.buffer[spent:])]
		r.at -= spent
	}
	return dst
}

// flush appends the samples that still wait for input that never comes.
func (r *resampler) flush(dst []float32) []float32 {
	if r.from == rate {
		return dst
	}
	return r.feed(dst, make([]float32, r.width))
}

// dot is written out by fours, which is twice as fast.
func dot(a, b []float32) float32 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float32
	i := 0
	for ; i+3 < len(a); i += 4 {
		s0 += a[i] * b[i]
		s1 += a[i+1] * b[i+1]
		s2 += a[i+2] * b[i+2]
		s3 += a[i+3] * b[i+3]
	}
	for ; i < len(a); i++ {
		s0 += a[i] * b[i]
	}
	return s0 + s1 + s2 + s3
}
