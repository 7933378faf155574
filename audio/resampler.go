package audio

import "math"

// The resampler's filter is a sinc under a Hann window with this many zero
// crossings on each side, and a cut-off a little below the smaller of the two
// Nyquist rates. Images stay below −60 dB, under the noise of a room.
const (
	sincCrossings = 12
	sincCutoff    = 0.92
	mostPhases    = 1024 // between two input samples; rates that need more take the nearest
)

// A Resampler turns a stream of samples at one rate into another by
// band-limited interpolation (Smith and Gossett, ICASSP 1984). Output sample n
// lies at input sample n·from/to exactly, however long the stream.
type Resampler struct {
	from, to int
	width    int         // input samples on each side of an output sample
	phases   [][]float32 // filters, by how far the output lies after an input sample
	buffer   []float32
	at       int // input sample in buffer at or before the next output sample,
	over     int // and how far it lies beyond, in 1/to of an input sample
}

// NewResampler returns a resampler between two rates in Hz.
func NewResampler(from, to int) *Resampler {
	stretch := max(float64(from)/float64(to), 1) / sincCutoff
	r := &Resampler{from: from, to: to, width: int(math.Ceil(sincCrossings * stretch))}
	divisor := from
	for b := to; b != 0; {
		divisor, b = b, divisor%b
	}
	count := min(to/divisor, mostPhases)
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

// Feed takes input samples and appends to dst the output samples that they
// complete.
func (r *Resampler) Feed(dst, in []float32) []float32 {
	if r.from == r.to {
		return append(dst, in...)
	}
	r.buffer = append(r.buffer, in...)
	for r.at+r.width < len(r.buffer) {
		filter := r.phases[r.over*len(r.phases)/r.to]
		dst = append(dst, dot(filter, r.buffer[r.at-r.width+1:]))
		r.over += r.from
		r.at += r.over / r.to
		r.over %= r.to
	}
	if spent := min(r.at-r.width, len(r.buffer)); spent > 0 {
		r.buffer = r.buffer[:copy(r.buffer, r.buffer[spent:])]
		r.at -= spent
	}
	return dst
}

// Flush appends the samples that still wait for input that never comes.
func (r *Resampler) Flush(dst []float32) []float32 {
	if r.from == r.to {
		return dst
	}
	return r.Feed(dst, make([]float32, r.width))
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
