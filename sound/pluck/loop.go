package pluck

import (
	"math"
	"math/cmplx"

	"heddle/pitch"
)

// A loop is one polarisation of a sounding string: a wave that travels round a
// delay line and loses a little each time (Karplus and Strong 1983, extended
// as in Jaffe and Smith 1983). Each time round it passes
//
//   - a FIR of four taps: the fractional delay, third-order Lagrange (Laakso,
//     Välimäki, Karjalainen and Laine 1996, table II), and the losses that all
//     frequencies share;
//   - a shelf of first order, by which losses rise from a floor to a plateau
//     (Välimäki, Huopaniemi, Karjalainen and Jánosy 1996 fit a filter of first
//     order to recorded guitars in the same way);
//   - an allpass of first order, by which high partials travel faster, as on a
//     stiff string (Jaffe and Smith 1983, p. 62; Van Duyne and Smith 1994).
//
// The delay of the FIR is set so that the whole loop's phase delay at the
// fundamental is exactly one period. While a string lives, only the FIR
// changes: it has no memory, so the pitch can move from sample to sample.
type loop struct {
	wave []float32 // what has sounded, the newest last
	end  int       // where the next sample goes
	rate float64

	gain float64           // of one time round, at the lowest frequencies
	span float64           // samples of lag and interpolator together
	lag  int               // samples from the newest tap to the sample being made
	taps [loopTaps]float32 // of the FIR

	shelf shelf
	stiff float64 // coefficient of the allpass

	x, hp  float32 // memory of the shelf: what went in, what it took away
	a1, a2 float32 // memory of the allpass: what went in, what came out
}

// The shape of the loop.
const (
	loopTaps  = 4
	waveRoom  = 4096 // samples written before the past is moved down
	slackRoom = 1.05 // how far below its open key a string may sound, as a factor
)

// newLoop returns a loop at rest that sounds no lower than a key.
func newLoop(lowestKey, rate float64) loop {
	past := int(slackRoom*rate/pitch.Frequency(lowestKey)) + loopTaps
	return loop{wave: make([]float32, past+waveRoom), end: past, rate: rate}
}

// start empties the loop and sets it to a frequency.
func (l *loop) start(hz float64, lost losses, b float64) {
	past := len(l.wave) - waveRoom
	clear(l.wave[:past])
	l.end = past
	l.x, l.hp, l.a1, l.a2 = 0, 0, 0, 0
	l.gain = lost.gain(hz)
	l.shelf = lost.shelf(hz, l.rate)
	l.stiff = stiffness(hz, b, l.shelf, l.rate)
	l.tune(hz)
}

// tune sets lag and taps for a frequency.
func (l *loop) tune(hz float64) {
	l.setSpan(l.spanOf(hz))
}

// spanOf returns the samples that lag and interpolator must delay by together
// for the fundamental to lie at a frequency.
func (l *loop) spanOf(hz float64) float64 {
	omega := 2 * math.Pi * hz / l.rate
	want := l.rate/hz - l.shelf.delay(omega) - allpassDelay(l.stiff, omega)
	lag := lagOf(want)
	delay := want - lag
	for range 2 {
		delay += want - lag - phaseDelay(lagrange(delay), omega)
	}
	return lag + delay
}

// lagOf returns the whole samples of a span that leave the interpolator one to
// two.
func lagOf(span float64) float64 { return max(math.Floor(span)-1, 1) }

// setSpan sets lag and taps.
func (l *loop) setSpan(span float64) {
	l.span = span
	lag := lagOf(span)
	l.lag = int(lag)
	for k, t := range lagrange(span - lag) {
		l.taps[k] = float32(l.gain * t)
	}
}

// lagrange returns the taps of an interpolator of the given delay, best from 1
// to 2 samples.
func lagrange(d float64) [loopTaps]float64 {
	return [loopTaps]float64{
		-(d - 1) * (d - 2) * (d - 3) / 6,
		d * (d - 2) * (d - 3) / 2,
		-d * (d - 1) * (d - 3) / 2,
		d * (d - 1) * (d - 2) / 6,
	}
}

// phaseDelay returns a FIR's phase delay in samples at ω radians a sample.
func phaseDelay(taps [loopTaps]float64, omega float64) float64 {
	var h complex128
	for k, t := range taps {
		h += complex(t, 0) * cmplx.Exp(complex(0, -omega*float64(k)))
	}
	return -cmplx.Phase(h) / omega
}

// room moves the past down when there is no room to write after it, and
// returns how many samples can be written.
func (l *loop) room() int {
	if l.end == len(l.wave) {
		past := len(l.wave) - waveRoom
		copy(l.wave, l.wave[l.end-past:])
		l.end = past
	}
	return len(l.wave) - l.end
}

// travel makes the loop's next n samples, which must find room, and returns
// them.
func (l *loop) travel(n int) []float32 {
	made := l.wave[l.end : l.end+n]
	src := l.wave[l.end-l.lag-loopTaps+1:]
	t0, t1, t2, t3 := l.taps[0], l.taps[1], l.taps[2], l.taps[3]
	x3, x2, x1 := src[0], src[1], src[2]
	src = src[3:]
	src = src[:len(made)]
	c, p, s := l.shelf.cut, l.shelf.pole, float32(l.stiff)
	x, hp, a1, a2 := l.x, l.hp, l.a1, l.a2
	for i := range made {
		x0 := src[i]
		v := (t0*x0 + t3*x3) + (t1*x1 + t2*x2)
		x3, x2, x1 = x2, x1, x0
		hp = c*(v-x) + p*hp
		x = v
		v -= hp
		a2 = (s*v + a1) - s*a2
		a1 = v
		made[i] = a2
	}
	l.x, l.hp, l.a1, l.a2 = x, hp, a1, a2
	l.end += n
	return made
}

// travelTo is travel while the pitch moves to where a span puts it. Each sample
// has taps of its own; were they held even for a few, the steps would be heard.
func (l *loop) travelTo(span float64, n int) []float32 {
	from := l.end
	step := (span - l.span) / float64(n)
	for range n {
		l.setSpan(l.span + step)
		l.travel(1)
	}
	return l.wave[from:l.end]
}
