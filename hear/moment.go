package hear

import "math"

// A moment is a place in the sound where a note may begin, and what speaks
// for and against it.
type moment struct {
	onsetS    float64
	flux      float64 // of the peak
	stillness float64 // mean flux of the time before
	busiest   float64 // the most flux of the time before
	edgeDB    float64 // by which the highs rise
	lookS     float64 // how much sound after the onset was looked at

	midi      float64 // of what is new, the best guess
	freshness float64 // its score on what is new, over the best score on all that sounds
	margin    float64 // how far ahead of the next best guess
	contrast  float64 // how far ahead of the median of all pitches

	likeness       float64 // how periodic the sound is at the pitch, after
	likenessBefore float64 // and before
	likenessPrev   float64 // and, after, at the pitch of the note before
	levelDB        float64
	riseDB         float64 // against the level before
	underDB        float64 // against the loudest of late
	prevMIDI       float64 // the note before, 0 for none
	prevS          float64
	offTune        float64 // distance from the nearest key of the guitar's own tuning, in semitones
}

// samePitch is how near two pitches are one note, in semitones.
const samePitch = 0.6

// crowdS is the time after an onset in which another is less likely: a
// sixteenth at 150.
const crowdS = 0.1

const (
	evidenceCount = 16
	underWeight   = 11 // the place of underDB in the evidence
)

// Below a guitar's range one period of a string is as long as what the flux
// looks at, and each round of the pulse on it looks like an attack: there a
// stroke that repeats the pitch must outdo the rounds before.
const (
	pulsingBelow = 40.0 // E2
	pulsingFlux  = 1.6
)

// again reports whether the moment's pitch is that of the note before.
func (m *moment) again() bool {
	return m.prevMIDI > 0 && math.Abs(m.midi-m.prevMIDI) < samePitch
}

// evidence returns the moment as the numbers that the judge weighs. Each
// stays within a few units of nought.
func (m *moment) evidence() [evidenceCount]float64 {
	crowd, still := 0.0, m.likenessPrev
	if m.prevMIDI > 0 {
		crowd = max(0, crowdS-(m.onsetS-m.prevS)) / crowdS
	}
	if m.again() {
		still = 0
	}
	fluxLog := math.Log(m.flux + 0.01)
	overStillness := math.Log((m.flux + 0.01) / (m.stillness + 0.02))
	edge := clampTo(m.edgeDB/10, 0, 4)
	return [evidenceCount]float64{
		1, fluxLog, overStillness, edge, m.freshness, m.margin, m.contrast,
		m.likeness, m.likenessBefore, still, clampTo(m.riseDB/10, -1, 2), max(m.underDB/10, -4),
		crowd, m.offTune, fluxLog * m.freshness, edge * m.freshness,
	}
}

func clampTo(x, low, high float64) float64 { return max(low, min(high, x)) }

// odds is the logarithm of the odds that a note begins here. A stroke that
// repeats a pitch is told by other signs than one that brings a new pitch.
func (m *moment) odds() float64 {
	if m.again() && m.midi < pulsingBelow && m.flux < pulsingFlux*m.busiest {
		return -10
	}
	weights := &freshWeights
	if m.again() {
		weights = &againWeights
	}
	sum := 0.0
	for i, x := range m.evidence() {
		sum += weights[i] * x
	}
	return sum
}

// confidence is the probability that a note begins here.
func (m *moment) confidence() float64 { return 1 / (1 + math.Exp(-m.odds())) }
