package sound

import "math"

// An amp is what a strung instrument is heard through: a little valve-like
// stage that rounds off peaks, and a loudspeaker or a body.
type amp struct {
	drive   float32 // into the stage
	makeup  float32 // out of it
	speaker [2]biquad
	quiet   int // samples since there was anything to hear
	resting bool
	rest    int // samples of quiet after which the filters have rung out
}

// newAmp returns an amp at rest.
//
// A twelve-inch loudspeaker falls steeply above 5 kHz and below its own
// resonance near 75 Hz, where it lifts a little (makers' response curves,
// common knowledge); a wooden body has its lowest modes near 200 Hz. Either
// way direct current, which the rounding of lopsided waves makes, stops here.
func newAmp(k ampKind, rate float64) *amp {
	a := &amp{rest: int(0.1 * rate), resting: true}
	switch k {
	case guitarAmp:
		a.drive, a.makeup = 0.9, 1
		a.speaker = [2]biquad{*highPass(75, 1.1, rate), *lowPass(4800, 0.8, rate)}
	case bassAmp:
		a.drive, a.makeup = 0.7, 1
		a.speaker = [2]biquad{*highPass(32, 0.9, rate), *lowPass(3200, 0.7, rate)}
	case woodenBody:
		a.drive, a.makeup = 0.3, 1
		a.speaker = [2]biquad{*highPass(90, 0.8, rate), *peak(210, 1.5, 5, rate)}
	}
	return a
}

// play runs samples through the amp in place. Played tells whether any
// string sounds; the amp rests once its filters have rung out.
func (a *amp) play(s []float32, played bool) (heard bool) {
	if played {
		a.quiet, a.resting = 0, false
	} else if a.quiet += len(s); a.quiet > a.rest {
		a.resting = true
		a.speaker[0].s1, a.speaker[0].s2, a.speaker[1].s1, a.speaker[1].s2 = 0, 0, 0, 0
	}
	if a.resting {
		return false
	}
	a.run(s)
	return true
}

// run is the stage y = x − 4x³/27 (up to |x| = 1.5, where its slope is 0) and
// the speaker's two filters, in one pass since each would wait for memory
// alone.
func (a *amp) run(s []float32) {
	f, g := a.speaker[0], a.speaker[1]
	drive, makeup := a.drive, float64(a.makeup/a.drive)
	for i, in := range s {
		x := in * drive
		if x > 1.5 {
			x = 1.5
		} else if x < -1.5 {
			x = -1.5
		}
		v := float64(x-x*x*x*(4.0/27)) * makeup
		y := f.b0*v + f.s1
		f.s1 = (f.b1*v + f.s2) - f.a1*y
		f.s2 = f.b2*v - f.a2*y
		z := g.b0*y + g.s1
		g.s1 = (g.b1*y + g.s2) - g.a1*z
		g.s2 = g.b2*y - g.a2*z
		s[i] = float32(z)
	}
	a.speaker[0], a.speaker[1] = f, g
}

// exp2 is 2 to the power of x.
func exp2(x float64) float64 { return math.Exp2(x) }
