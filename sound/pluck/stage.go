package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// A stage is what a strung instrument is heard through: a body that rings, or
// an amplifier and its loudspeaker. What is linear before an amplifier (pick-up,
// tone control) is in the push that sets a string going, see pushOf.
type stage struct {
	outlet
	follow  float64       // of the filter that takes direct current away
	filters []*dsp.Biquad // body or loudspeaker
	last    float64       // sample that went into the amplifier
	level   float64       // of direct current, which the rounding of lopsided waves makes
	quiet   int           // samples since a string last sounded
	rest    int           // samples of quiet after which everything has rung out
}

// An outlet is a stage in figures.
type outlet struct {
	drive   float64 // into the amplifier; 0 for none
	bias    float64 // off the amplifier's middle, by which it adds even harmonics
	levelDB float64 // brings every tone to the same loudness
	tones   []tone  // of a body or a loudspeaker
}

// The stage's figures.
const (
	blockHz    = 20 // corner below which direct current is taken away
	stageRingS = 0.3
)

// newStage returns a stage at rest.
func newStage(o outlet, rate float64) *stage {
	s := &stage{outlet: o, follow: 2 * math.Pi * blockHz / rate, rest: int(stageRingS * rate)}
	for _, t := range o.tones {
		s.filters = append(s.filters, t.filter(rate))
	}
	s.quiet = s.rest
	return s
}

// play runs samples through the stage in place and reports whether there is
// anything to hear. Played says whether any string sounds; the stage rests
// once it has rung out.
func (s *stage) play(x []float32, played bool) (heard bool) {
	if played {
		s.quiet = 0
	} else if s.quiet += len(x); s.quiet > s.rest {
		if s.quiet-len(x) <= s.rest {
			s.level, s.last = 0, s.bias
			for _, f := range s.filters {
				f.Reset()
			}
		}
		s.quiet = s.rest + 1
		return false
	}
	gain := math.Pow(10, s.levelDB/20)
	switch {
	case s.drive > hardDrive:
		s.overdrive(x, gain/s.drive)
	case s.drive > 0:
		s.round(x, gain/s.drive)
	default:
		s.block(x, gain)
	}
	dsp.Cascade(x, s.filters)
	return true
}

// block takes direct current away: notes of a few periods, as fast bass lines
// have, do not come out even.
func (s *stage) block(x []float32, gain float64) {
	level, stay := s.level, 1-s.follow
	for i, in := range x {
		v := float64(in) * gain
		x[i] = float32(v - level)
		level = level*stay + v*s.follow
	}
	s.level = level
}

// A clean amplifier's stage rounds off peaks so gently that it needs no guard
// against aliasing.
const hardDrive = 2

// round rounds off peaks as a valve does, by curve, and takes direct current away.
func (s *stage) round(x []float32, gain float64) {
	level, stay := s.level, 1-s.follow
	for i, in := range x {
		y := curve(float64(in)*s.drive) * gain
		x[i] = float32(y - level)
		level = level*stay + y*s.follow
	}
	s.level = level
}

// overdrive is round with a stage driven hard and off its middle. So that it
// does not alias, each sample is the mean of the curve between it and the one
// before (Parker, Zavalishin and Le Bivic 2016, eq. 5).
func (s *stage) overdrive(x []float32, gain float64) {
	level, stay := s.level, 1-s.follow
	last, sum := s.last, integral(s.last)
	for i, in := range x {
		v := float64(in)*s.drive + s.bias
		next := integral(v)
		y := curve((v + last) / 2)
		if step := v - last; math.Abs(step) > 1e-3 {
			y = (next - sum) / step
		}
		last, sum = v, next
		y *= gain
		x[i] = float32(y - level)
		level = level*stay + y*s.follow
	}
	s.level, s.last = level, last
}

// curve is y = x − 4x³/27 up to |x| = 1.5, where its slope is 0, and level beyond.
func curve(x float64) float64 {
	if x > 1.5 {
		x = 1.5
	} else if x < -1.5 {
		x = -1.5
	}
	return x - x*x*x*(4.0/27)
}

// integral is that of curve from 0.
func integral(x float64) float64 {
	if x > 1.5 || x < -1.5 {
		return math.Abs(x) - 0.5625
	}
	return x * x * (0.5 - x*x/27)
}
