package hear

import "math"

// signCount is how many signs a candidate is judged by.
const signCount = 39

// The places of the signs that are against the loudness of the take.
const (
	underSign    = 4
	strengthSign = 5
)

// softestSign bounds the signs against the take's loudness, in tens of dB.
const softestSign = -4

// lobeBins is about how many bins one sine fills in a spectrum of one second.
const lobeBins = 0.3

// signs gathers what speaks for a candidate. Each sign stays within a few
// units of nought.
func (e *ear) signs(m *moment, c *candidate, step int, whole, fresh, next float64) {
	n := e.newcomer
	v := n.voice(step)
	lag := lagOf(c.midi)
	after, before := nearby(e.after, lag), nearby(e.before, lag)
	crowd, waited, leap, again, octave := 0.0, 1.0, 0.0, 0.0, 0.0
	if m.prevMIDI > 0 {
		crowd = max(0, crowdS-(m.onsetS-m.prevS)) / crowdS
		waited = min(1, m.onsetS-m.prevS)
		leap = min(widestLeap, math.Abs(c.midi-m.prevMIDI)/12)
		if math.Abs(c.midi-m.prevMIDI) < samePitch {
			again = 1
		}
		if math.Abs(math.Abs(c.midi-m.prevMIDI)-12) < samePitch {
			octave = 1
		}
	}
	c.levelDB = 10 * math.Log10(v.power+1e-12)
	score := n.score[step]
	ratio := func(other int) float64 {
		if other < 0 || other >= len(n.score) {
			return 0
		}
		return clampTo(n.score[other]/(score+0.05*whole), 0, 3)
	}
	fluxLog := math.Log(m.flux + 0.01)
	x := [signCount]float64{
		fluxLog, math.Log((m.flux + 0.01) / (m.stillness + 0.02)), clampTo(m.edgeDB/10, 0, 4), clampTo(m.riseDB/10, -1, 2),
		m.usual.under(m), m.usual.strength(c), crowd, waited,
		m.turn, fresh / whole, m.likenessPrev, m.lookS * 8,
		math.Log(m.busiest + 0.01), m.contrast, score / whole, score / (fresh + 1e-9),
		e.sounding[step] / whole, e.total[step] - next, after, before,
		shorterPeriod(e.after, lag), e.tuning.off(c.midi) * 2, leap, again,
		octave, v.odd / (v.odd + v.even + 1e-9), ratio(step + 12*stepsPerKey), ratio(step - 12*stepsPerKey),
		ratio(step + 19*stepsPerKey), (c.midi - 60) / 12, v.first / (v.sum + 1e-9) * 2, v.centre / 4,
		clampTo(math.Log10((v.after+1e-12)/(v.before+1e-12)), -2, 3), min(2, v.sum*lobeBins/(m.lookS*n.newSum+1e-9)),
		min(2, v.between/(v.sum+1e-9)*2), min(2, v.half/(v.first+1e-9)), v.filled, v.filledBetween, e.twice(lag) - after,
	}
	for i, s := range x {
		c.signs[i] = float32(s)
	}
}

// twice is how periodic the sound is at twice a lag: more than at the lag itself
// when the octave below sounds. Beyond the longest lag it is taken to be alike.
func (e *ear) twice(lag float64) float64 {
	if int(2*lag)+2 >= len(e.after) {
		return nearby(e.after, lag)
	}
	return nearby(e.after, 2*lag)
}
