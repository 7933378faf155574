package hear

import (
	"math"

	"heddle/pitch"
)

// correlateN is how many samples each lag is compared over: two periods of
// E2 and a little more. Longer blurs fast lines, shorter lets noise in.
const correlateN = 400

// A correlator finds how alike a stretch of sound is to itself one lag
// earlier, for all lags at once: 1 − d(τ)/(e(0) + e(τ)) with the difference
// function d of YIN (de Cheveigné and Kawahara 2002, equation 6), normalised by
// energy (McLeod and Wyvill 2005, equation 9), so that it is 1 for a perfect period and
// S/(S+N) for a period in noise.
type correlator struct {
	longest   int // the longest lag
	size      int
	fft       *transformer
	head, all []float64
	fh, fa    []complex128
	squares   []float64 // running sums of squares
	likeness  []float64 // by lag
}

func newCorrelator(longest int) *correlator {
	size := 512
	for size < correlateN+longest {
		size *= 2
	}
	return &correlator{
		longest: longest, size: size, fft: newTransformer(size),
		head: make([]float64, size), all: make([]float64, size),
		fh: make([]complex128, size/2+1), fa: make([]complex128, size/2+1),
		squares: make([]float64, correlateN+longest+1), likeness: make([]float64, longest+1),
	}
}

// span is how many samples correlate needs.
func (c *correlator) span() int { return correlateN + c.longest }

// correlate takes the last span samples up to now and returns the likeness by
// lag. It compares the last correlateN samples with those one lag earlier.
func (c *correlator) correlate(x []float32) []float64 {
	n := c.span()
	// Time runs backwards here, so that the newest samples are the head.
	for i := range n {
		c.all[i] = float64(x[n-1-i])
	}
	copy(c.head, c.all[:correlateN])
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
	e0 := c.squares[correlateN]
	for lag := range c.likeness {
		energy := e0 + c.squares[lag+correlateN] - c.squares[lag]
		c.likeness[lag] = 0
		if energy > 1e-12 {
			c.likeness[lag] = 2 * r[lag] / energy
		}
	}
	clear(c.head[correlateN:])
	return c.likeness
}

// shorterPeriod is the best likeness at a whole fraction of the lag. Where it
// is high, the lag holds several periods and not one.
func shorterPeriod(likeness []float64, lag float64) float64 {
	best := 0.0
	for part := 2.0; part <= 6; part++ {
		at := lag / part
		if at < 3 {
			break
		}
		best = max(best, nearby(likeness, at))
	}
	return best
}

// nearby is the highest likeness within a sample of the lag.
func nearby(likeness []float64, at float64) float64 {
	i := int(at + 0.5)
	if i < 1 || i+1 >= len(likeness) {
		return 0
	}
	a, b, c := likeness[i-1], likeness[i], likeness[i+1]
	if b >= a && b >= c && a-2*b+c < 0 {
		return b - 0.125*(a-c)*(a-c)/(a-2*b+c)
	}
	return max(a, b, c)
}

// lagOf is the period of a key, which need not be whole, in samples.
func lagOf(midi float64) float64 { return rate / pitch.Frequency(midi) }

// keyOf is the key of a period in samples.
func keyOf(lag float64) float64 { return 69 + 12*math.Log2(rate/lag/pitch.Frequency(69)) }
