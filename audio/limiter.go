package audio

import "math"

// A Limiter keeps true peaks below a ceiling. It is a guard: the mix is set so
// that it has next to nothing to do, and where it has nothing to do it leaves
// every sample as it is.
//
// It looks ahead. Where a peak is coming, the gain sinks along a smooth step
// and is down when the peak is there, then rises again along an exponential.
type Limiter struct {
	ceiling float32
	Ahead   int // samples of delay
	left    []float32
	right   []float32
	gain    []float32 // of the samples that wait, as far as any is below 1
	rise    float32   // share of the way back to 1 in each sample
	back    float32   // gain on its way back
	shape   []float32 // from 0 to 1 over ahead samples
	busy    int       // samples until no gain below 1 waits
}

// The limiter's figures.
const (
	CeilingDB   = -1.3 // dBTP; leaves room below −1 for what interpolators differ by
	limitAheadS = 0.0015
	limitRiseS  = 0.06
)

// NewLimiter returns a limiter that has heard silence.
func NewLimiter(rate float64) *Limiter {
	ahead := int(limitAheadS*rate) + peakSpan
	l := &Limiter{
		ceiling: float32(math.Pow(10, CeilingDB/20)),
		Ahead:   ahead,
		rise:    float32(1 - math.Exp(-1/(limitRiseS*rate))),
		back:    1,
		left:    make([]float32, ahead), right: make([]float32, ahead),
	}
	for i := range ahead - peakSpan {
		x := float64(i+1) / float64(ahead-peakSpan)
		l.shape = append(l.shape, float32(x*x*(3-2*x)))
	}
	return l
}

// Limit takes in a block and gives, in its place, the one from ahead samples
// before.
func (l *Limiter) Limit(left, right []float32) {
	n := len(left)
	l.left, l.right = append(l.left, left...), append(l.right, right...)
	l.find(n)
	copy(left, l.left)
	copy(right, l.right)
	if l.busy > 0 || l.back < 1 {
		l.apply(left, right)
	}
	l.left = l.left[:copy(l.left, l.left[n:])]
	l.right = l.right[:copy(l.right, l.right[n:])]
}

// find looks for peaks that end in the last n samples.
func (l *Limiter) find(n int) {
	from := len(l.left) - n - peakSpan + 1
	const run = 64
	for at := from; at+peakSpan <= len(l.left); at += run {
		end := min(at+run+peakSpan-1, len(l.left))
		left, right := l.left[at:end], l.right[at:end]
		if highest(left)*peakOver > l.ceiling {
			l.search(left, at)
		}
		if highest(right)*peakOver > l.ceiling {
			l.search(right, at)
		}
	}
}

// search lowers the gain for every peak in one channel's samples, the first
// of which waits at a place. It interpolates only round samples large enough
// for a peak to stand beside them.
func (l *Limiter) search(s []float32, at int) {
	const middle = peakSpan / 2
	for i := 0; i+peakSpan <= len(s); i++ {
		if highest(s[i:i+peakSpan])*peakOver <= l.ceiling {
			continue
		}
		if p := between(s[i:]); p > l.ceiling {
			l.lower(at+i+middle, l.ceiling/p)
		}
	}
}

// lower makes the gain at a waiting sample, and on the way to it, as low as a
// peak there needs.
func (l *Limiter) lower(at int, need float32) {
	for len(l.gain) < at+3 {
		l.gain = append(l.gain, 1)
	}
	for i, s := range l.shape {
		if j := at - len(l.shape) + 1 + i; j >= 0 {
			l.gain[j] = min(l.gain[j], 1-(1-need)*s)
		}
	}
	for j := at + 1; j < at+3; j++ {
		l.gain[j] = min(l.gain[j], need)
	}
	l.busy = max(l.busy, at+3)
}

// risingRun is how many samples the gain rises through in a straight line.
const risingRun = 32

// apply turns samples down where they wait for it.
func (l *Limiter) apply(left, right []float32) {
	waiting := min(len(l.gain), len(left))
	for i, g := range l.gain[:waiting] {
		l.back = min(l.back+(1-l.back)*l.rise, g)
		left[i] *= l.back
		right[i] *= l.back
	}
	l.gain = l.gain[:copy(l.gain, l.gain[waiting:])]
	l.busy = max(0, l.busy-len(left))
	left, right = left[waiting:], right[waiting:]
	for len(left) > 0 && l.back < 1 {
		n := min(len(left), risingRun)
		up := (1 - l.back) * l.rise
		g := l.back
		for i, x := range left[:n] {
			g += up
			left[i] = x * g
			right[i] *= g
		}
		if l.back = g; 1-g < 1e-4 {
			l.back = 1
		}
		left, right = left[n:], right[n:]
	}
}
