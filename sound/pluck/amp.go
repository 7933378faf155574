package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// An amp is what a strung instrument is heard through: a little valve-like
// stage that rounds off peaks, and a loudspeaker that falls steeply above
// 5 kHz. What is linear before the stage (pick-up, tone, the speaker's lower
// end) is in the push that sets a string going, see pushOf; a bass and a
// wooden body, which have no such stage, are in the push altogether.
type amp struct {
	through bool // neither stage nor speaker
	speaker dsp.Biquad
	x1, x2  float64 // into the speaker
	y1, y2  float64 // out of it
	level   float64 // of direct current, which the rounding of lopsided waves makes
	quiet   int     // samples since a string last sounded
	rest    int     // samples of quiet after which everything has rung out
}

// The amp's figures.
const (
	drive     = 0.9
	speakerHz = 4800
	speakerQ  = 0.8
	blockHz   = 20 // corner below which direct current is taken away
	ampRingS  = 0.1
)

// newAmp returns an amp at rest.
func newAmp(k ampKind, rate float64) *amp {
	a := &amp{through: k != guitarAmp, rest: int(ampRingS * rate), speaker: *dsp.LowPass(speakerHz, speakerQ, rate)}
	a.quiet = a.rest
	return a
}

// play runs samples through the amp in place and reports whether there is
// anything to hear. Played says whether any string sounds; the amp rests
// once it has rung out.
func (a *amp) play(s []float32, played bool, rate float64) (heard bool) {
	if played {
		a.quiet = 0
	} else if a.quiet += len(s); a.quiet > a.rest {
		a.quiet = a.rest
		a.level, a.x1, a.x2, a.y1, a.y2 = 0, 0, 0, 0, 0
		return false
	}
	if follow := 2 * math.Pi * blockHz / rate; a.through {
		a.block(s, follow)
	} else {
		a.run(s, follow)
	}
	return true
}

// block takes direct current away: notes of a few periods, as fast bass lines
// have, do not come out even.
func (a *amp) block(s []float32, follow float64) {
	level, stay := a.level, 1-follow
	for i, in := range s {
		v := float64(in)
		s[i] = float32(v - level)
		level = level*stay + v*follow
	}
	a.level = level
}

// run is the stage y = x − 4x³/27 (up to |x| = 1.5, where its slope is 0), what
// takes direct current away, and the speaker, in one pass since each would
// wait for memory alone. The speaker is in direct form I: there a sample waits
// for only one product of the one before.
func (a *amp) run(s []float32, follow float64) {
	f, level, stay := a.speaker, a.level, 1-follow
	x1, x2, y1, y2 := a.x1, a.x2, a.y1, a.y2
	for i, in := range s {
		x := in * drive
		if x > 1.5 {
			x = 1.5
		} else if x < -1.5 {
			x = -1.5
		}
		v := float64(x-x*x*x*(4.0/27)) * (1 / drive)
		x0 := v - level
		level = level*stay + v*follow
		y := ((f.B0*x0 + f.B1*x1) + (f.B2*x2 - f.A2*y2)) - f.A1*y1
		x2, x1, y2, y1 = x1, x0, y1, y
		s[i] = float32(y)
	}
	a.level, a.x1, a.x2, a.y1, a.y2 = level, x1, x2, y1, y2
}
