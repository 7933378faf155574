package listen

import (
	"math"

	"heddle/hear/internal/spectral"
)

// FeatureCount is how many features a candidate is classified by.
const FeatureCount = 39

// The places of the features that depend on the loudness of the take.
const (
	levelFeature    = 4
	strengthFeature = 5
)

// lobeBins is about how many bins one sine fills in a spectrum of one second.
const lobeBins = 0.3

// crowdS is the time after an onset in which another is less likely: a sixteenth
// at 150.
const crowdS = 0.1

// setFeatures measures a candidate at a step of the novelty. Each feature stays
// within a few units of 0.
func (t *tracker) setFeatures(m *Moment, c *Candidate, step int, whole, fresh, next float64) {
	n := t.novelty
	v := n.harmonics(step)
	lag := lagOf(c.MIDI)
	after, before := spectral.PeakAt(t.after, lag), spectral.PeakAt(t.before, lag)
	crowd, waited, leap, again, octave := 0.0, 1.0, 0.0, 0.0, 0.0
	if m.prevMIDI > 0 {
		crowd = max(0, crowdS-(m.OnsetS-m.prevS)) / crowdS
		waited = min(1, m.OnsetS-m.prevS)
		leap = min(widestLeap, math.Abs(c.MIDI-m.prevMIDI)/12)
		if math.Abs(c.MIDI-m.prevMIDI) < SamePitch {
			again = 1
		}
		if math.Abs(math.Abs(c.MIDI-m.prevMIDI)-12) < SamePitch {
			octave = 1
		}
	}
	c.levelDB = 10 * math.Log10(v.power+1e-12)
	score := n.score[step]
	ratio := func(other int) float64 {
		if other < 0 || other >= len(n.score) {
			return 0
		}
		return clamp(n.score[other]/(score+0.05*whole), 0, 3)
	}
	x := [FeatureCount]float64{
		math.Log(m.flux + 0.01), math.Log((m.flux + 0.01) / (m.stillness + 0.02)), clamp(m.edgeDB/10, 0, 4), clamp(m.riseDB/10, -1, 2),
		levelFeature: m.typical.level(m), strengthFeature: m.typical.strength(c), crowd, waited,
		m.periodGain, fresh / whole, m.similarToPrev, m.lookS * 8,
		math.Log(m.busiest + 0.01), m.contrast, score / whole, score / (fresh + 1e-9),
		t.sounding[step] / whole, t.total[step] - next, after, before,
		spectral.ShorterPeriod(t.after, lag), t.tuning.off(c.MIDI) * 2, leap, again,
		octave, v.odd / (v.odd + v.even + 1e-9), ratio(step + 12*stepsPerKey), ratio(step - 12*stepsPerKey),
		ratio(step + 19*stepsPerKey), (c.MIDI - 60) / 12, v.first / (v.sum + 1e-9) * 2, v.centre / 4,
		clamp(math.Log10((v.after+1e-12)/(v.before+1e-12)), -2, 3), min(2, v.sum*lobeBins/(m.lookS*n.newSum+1e-9)),
		min(2, v.between/(v.sum+1e-9)*2), min(2, v.half/(v.first+1e-9)), v.filled, v.filledBetween, t.atTwice(lag) - after,
	}
	for i, f := range x {
		c.Features[i] = float32(f)
	}
}

// atTwice is the similarity at twice a lag, which is higher than at the lag
// itself when the octave below sounds. Beyond the longest lag it is taken to be
// the same.
func (t *tracker) atTwice(lag float64) float64 {
	if int(2*lag)+2 >= len(t.after) {
		return spectral.PeakAt(t.after, lag)
	}
	return spectral.PeakAt(t.after, 2*lag)
}
