package spectral

// CompareN is how many samples are compared at each lag: two periods of E2 and a
// little more. More would blur fast lines, fewer would let noise in.
const CompareN = 400

// A Correlator finds how similar a stretch of sound is to itself one lag
// earlier, for all lags at once: 1 − d(τ)/(e(0) + e(τ)) with the difference
// function d of YIN (de Cheveigné and Kawahara 2002, equation 6), normalised by
// energy (McLeod and Wyvill 2005, equation 9). It is 1 for a perfect period and
// S/(S+N) for a period in noise.
type Correlator struct {
	Longest int // the longest lag

	fft        *transform
	head, all  []float64
	fh, fa     []complex128
	squares    []float64 // running sums of squares
	similarity []float64 // by lag
}

// NewCorrelator returns a correlator for lags up to the longest.
func NewCorrelator(longest int) *Correlator {
	size := 512
	for size < CompareN+longest {
		size *= 2
	}
	return &Correlator{
		Longest: longest, fft: newTransform(size),
		head: make([]float64, size), all: make([]float64, size),
		fh: make([]complex128, size/2+1), fa: make([]complex128, size/2+1),
		squares: make([]float64, CompareN+longest+1), similarity: make([]float64, longest+1),
	}
}

// Span is how many samples Correlate needs.
func (c *Correlator) Span() int { return CompareN + c.Longest }

// Correlate takes the last Span samples and returns the similarity by lag, which
// is valid until the next call.
func (c *Correlator) Correlate(x []float32) []float64 {
	n := c.Span()
	// Time is reversed here, so that the newest samples are the head.
	for i := range n {
		c.all[i] = float64(x[n-1-i])
	}
	copy(c.head, c.all[:CompareN])
	for i := range n {
		c.squares[i+1] = c.squares[i] + c.all[i]*c.all[i]
	}
	c.fft.forward(c.fh, c.head)
	c.fft.forward(c.fa, c.all)
	for i, h := range c.fh {
		a := c.fa[i]
		c.fh[i] = complex(real(h)*real(a)+imag(h)*imag(a), real(h)*imag(a)-imag(h)*real(a))
	}
	r := c.head
	c.fft.inverse(r, c.fh)
	e0 := c.squares[CompareN]
	for lag := range c.similarity {
		energy := e0 + c.squares[lag+CompareN] - c.squares[lag]
		c.similarity[lag] = 0
		if energy > 1e-12 {
			c.similarity[lag] = 2 * r[lag] / energy
		}
	}
	clear(c.head[CompareN:])
	return c.similarity
}

// PeakAt is the highest similarity within a sample of a lag.
func PeakAt(similarity []float64, lag float64) float64 {
	i := int(lag + 0.5)
	if i < 1 || i+1 >= len(similarity) {
		return 0
	}
	a, b, c := similarity[i-1], similarity[i], similarity[i+1]
	if b >= a && b >= c && a-2*b+c < 0 {
		return b - 0.125*(a-c)*(a-c)/(a-2*b+c)
	}
	return max(a, b, c)
}

// ShorterPeriod is the highest similarity at a whole fraction of a lag. Where it
// is high, the lag holds several periods.
func ShorterPeriod(similarity []float64, lag float64) float64 {
	best := 0.0
	for part := 2.0; part <= 6; part++ {
		at := lag / part
		if at < 3 {
			break
		}
		best = max(best, PeakAt(similarity, at))
	}
	return best
}
