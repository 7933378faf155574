package pluck

import (
	"math"
	"math/cmplx"

	"heddle/pitch"
)

// A vibration is one sounding of one string: a wave that travels round a
// delay line and loses a little each time (Karplus and Strong 1983, extended
// as in Jaffe and Smith 1983).
//
// The loop filter is one FIR of six taps, the product of two:
//
//   - the string's losses, g·[h, 1−2h, h], whose gain g·(1 − 2h(1 − cos ω)) is
//     e^(−σ/f₀) a period with σ(f) = σ₀ + b₂f² to second order in ω. That is
//     how the losses of real strings grow with frequency (Bensa, Bilbao,
//     Kronland-Martinet and Smith 2003, eq. 2); its delay is one sample at
//     every frequency, so that losses never put a string out of tune;
//   - the fractional delay, third-order Lagrange (Laakso, Välimäki,
//     Karjalainen and Laine 1996, table II), set so that the whole loop's phase delay
//     at the fundamental is exactly one period.
//
// A filter without feedback of its own can change from sample to sample (a
// slide, a damped note) without leaving anything wrong in its memory.
type vibration struct {
	wave []float32 // what has sounded, the newest last
	end  int       // where the next sample goes
	rate float64

	lag  int // samples from the newest tap to the sample being made
	taps [loopTaps]float32

	push    []float32 // what the pick or finger puts in, from pushed on
	pushed  int
	losses  losses
	key     float64 // what sounds now, in MIDI keys, not whole during a slide
	playing bool
	fade    int // samples left once damped; 0 while held
	faded   int // samples the fade takes in all
	glide   glide
}

// The shape of the loop.
const (
	loopTaps    = 6
	lossDelay   = 1.0  // samples, of the loss filter
	mostLossTap = 0.25 // above it the loss filter's gain would turn negative at half the rate
	waveRoom    = 4096 // samples written before the past is moved down
	slackRoom   = 1.05 // how far below its open key a string may sound, as a factor
)

// losses are what a string loses as it sounds.
type losses struct {
	ringS float64 // seconds in which low partials fall by 60 dB
	high  float64 // b₂ in seconds: how much faster high ones go, e^(−b₂f²t)
}

// newVibration returns a string at rest that sounds no lower than a key.
func newVibration(lowestKey, rate float64) *vibration {
	past := int(slackRoom*rate/pitch.Frequency(lowestKey)) + loopTaps
	return &vibration{wave: make([]float32, past+waveRoom), end: past, rate: rate}
}

// start sets the string going on a key with what is pushed into it.
func (v *vibration) start(key float64, l losses, push []float32) {
	past := len(v.wave) - waveRoom
	clear(v.wave[:past])
	v.end, v.push, v.pushed = past, push, 0
	v.losses, v.playing, v.fade, v.glide = l, true, 0, glide{}
	v.tune(key)
}

// damp makes the string fall silent within the given time. The hand that
// damps it takes the sound away along a smooth step; were the loop's own gain
// lowered, a low string would fall by half its size in one period and click.
func (v *vibration) damp(seconds float64) {
	n := max(int(seconds*v.rate), 2)
	if !v.playing || v.fade > 0 && v.fade <= n {
		return
	}
	if v.fade > 0 { // struck again while it was being damped: the same step, faster
		v.fade, v.faded = v.fade*n/v.faded, n
		return
	}
	v.fade, v.faded = n, n
}

// tune sets lag and taps for a key and the present losses.
func (v *vibration) tune(key float64) {
	v.key = key
	f0 := pitch.Frequency(key)
	period := v.rate / f0
	g, h := lossTaps(v.losses, f0, v.rate)
	loss := [3]float64{g * h, g * (1 - 2*h), g * h}

	v.lag = int(period - lossDelay - 1)
	delay := period - lossDelay - float64(v.lag)
	omega := 2 * math.Pi / period
	for range 2 {
		taps := loopFilter(loss, delay)
		delay += period - float64(v.lag) - phaseDelay(taps, omega)
	}
	for k, t := range loopFilter(loss, delay) {
		v.taps[k] = float32(t)
	}
}

// lossTaps returns g and h of the loss filter of a string that sounds f0 Hz.
func lossTaps(l losses, f0, rate float64) (g, h float64) {
	g = math.Exp(-math.Ln10 * 3 / (l.ringS * f0))
	h = l.high * rate * rate / (4 * math.Pi * math.Pi * f0)
	return g, min(h, mostLossTap)
}

// loopFilter returns the product of the loss filter and a Lagrange
// interpolator of the given delay, best from 1 to 2 samples.
func loopFilter(loss [3]float64, d float64) (taps [loopTaps]float64) {
	lagrange := [4]float64{
		-(d - 1) * (d - 2) * (d - 3) / 6,
		d * (d - 2) * (d - 3) / 2,
		-d * (d - 1) * (d - 3) / 2,
		d * (d - 1) * (d - 2) / 6,
	}
	for i, a := range loss {
		for j, b := range lagrange {
			taps[i+j] += a * b
		}
	}
	return taps
}

// phaseDelay returns a FIR's phase delay in samples at ω radians a sample.
func phaseDelay(taps [loopTaps]float64, omega float64) float64 {
	var h complex128
	for k, t := range taps {
		h += complex(t, 0) * cmplx.Exp(complex(0, -omega*float64(k)))
	}
	return -cmplx.Phase(h) / omega
}

// sound adds the string's next samples to out.
func (v *vibration) sound(out []float32) {
	for len(out) > 0 && v.playing {
		n := min(len(out), v.room())
		if left := len(v.push) - v.pushed; left > 0 {
			n = min(n, left, v.lag) // what is pushed in must be there before it comes round
			v.travel(v.wave[v.end : v.end+n])
			push := v.push[v.pushed : v.pushed+n]
			for i, y := range v.wave[v.end : v.end+n] {
				v.wave[v.end+i] = y + push[i]
			}
			v.pushed += n
			v.take(out[:n])
		} else if v.glide.left > 0 {
			n = v.glideOn(out[:n])
		} else if v.fade > 0 {
			n = v.fadeOut(out[:n])
		} else {
			v.travelInto(v.wave[v.end:v.end+n], out[:n])
			v.end += n
		}
		out = out[n:]
	}
}

// room returns how many samples can be written, moving the past down first
// where there is little room left.
func (v *vibration) room() int {
	if free := len(v.wave) - v.end; free >= waveRoom/8 {
		return free
	}
	past := len(v.wave) - waveRoom
	copy(v.wave, v.wave[v.end-past:v.end])
	v.end = past
	return waveRoom
}

// take adds samples just made to out.
func (v *vibration) take(out []float32) {
	made := v.wave[v.end : v.end+len(out)]
	for i, y := range made {
		out[i] += y
	}
	v.end += len(out)
}

// fadeOut makes samples of a damped string.
func (v *vibration) fadeOut(out []float32) int {
	n := min(len(out), v.fade)
	made := v.wave[v.end : v.end+n]
	v.travel(made)
	x, dx := float32(v.fade)/float32(v.faded), 1/float32(v.faded)
	for i, y := range made {
		x -= dx
		out[i] += y * x * x * (3 - 2*x)
	}
	v.end += n
	v.fade -= n
	v.playing = v.fade > 0
	return n
}

// travel makes the wave's next samples, which must lie right after the past.
func (v *vibration) travel(made []float32) {
	src := v.wave[v.end-v.lag-loopTaps+1:]
	t0, t1, t2, t3, t4, t5 := v.taps[0], v.taps[1], v.taps[2], v.taps[3], v.taps[4], v.taps[5]
	x5, x4, x3, x2, x1 := src[0], src[1], src[2], src[3], src[4]
	src = src[5:]
	src = src[:len(made)]
	for i := range made {
		x0 := src[i]
		made[i] = (t0*x0 + t5*x5) + (t1*x1 + t4*x4) + (t2*x2 + t3*x3)
		x5, x4, x3, x2, x1 = x4, x3, x2, x1, x0
	}
}

// travelInto is travel that also adds what it makes to out, in one go since
// this is where most of a line's time is spent.
func (v *vibration) travelInto(made, out []float32) {
	src := v.wave[v.end-v.lag-loopTaps+1:]
	t0, t1, t2, t3, t4, t5 := v.taps[0], v.taps[1], v.taps[2], v.taps[3], v.taps[4], v.taps[5]
	x5, x4, x3, x2, x1 := src[0], src[1], src[2], src[3], src[4]
	src = src[5:]
	src = src[:len(made)]
	out = out[:len(made)]
	for i := range made {
		x0 := src[i]
		y := (t0*x0 + t5*x5) + (t1*x1 + t4*x4) + (t2*x2 + t3*x3)
		made[i] = y
		out[i] += y
		x5, x4, x3, x2, x1 = x4, x3, x2, x1, x0
	}
}
