package hear

import (
	"cmp"
	"math"
	"slices"
)

// What a pitch gains for being periodic, and loses for being far from the
// note before, in units of the best score.
const (
	likenessWeight    = 0.2
	subharmonicWeight = 0.5
	octaveLeapWeight  = 0.05
	widestLeap        = 2.0 // octaves; beyond, all leaps count the same
	offTuneWeight     = 0.15
	// A stroke that brings little new strikes what sounds already.
	// An octave is told from the pitch below it by these harmonics,
	oddEvenHarmonics = 8
	oddShare         = 0.2 // of what is new, in the odd ones,
	octaveScore      = 0.8 // the least score, against the lower one,
	fading           = 0.9 // and of the amplitude before, in the odd ones
	repeatWeight     = 0.5
	repeatBelow      = 0.35
)

// guess finds the pitch of a moment.
func (e *ear) guess(m *moment) {
	n := e.newcomer
	whole, fresh := 1e-9, 0.0
	for k, teeth := range n.combs {
		e.sounding[k] = scoreComb(teeth, n.whole)
		whole, fresh = max(whole, e.sounding[k]), max(fresh, n.score[k])
	}
	again := repeatWeight * max(0, 1-fresh/whole/repeatBelow)
	best := 0
	for k := range e.total {
		e.total[k] = (n.score[k]+again*e.sounding[k])/whole + e.plausibility(n.midi(k))
		if e.total[k] > e.total[best] {
			best = k
		}
	}
	best = e.octave(best)
	next := math.Inf(-1)
	for k, s := range e.total {
		if math.Abs(float64(k-best)) > samePitch*stepsPerKey {
			next = max(next, s)
		}
	}
	copy(e.order, n.score)
	slices.SortFunc(e.order, cmp.Compare[float64])
	m.margin = e.total[best] - next
	m.freshness = n.score[best] / whole
	m.contrast = m.freshness - e.order[len(e.order)/2]/whole
	m.midi = n.refine(n.midi(best))
	if math.Abs(m.midi-n.midi(best)) > samePitch {
		m.midi = n.midi(best)
	}
	m.likeness = nearby(e.after, lagOf(m.midi))
	m.likenessBefore = nearby(e.before, lagOf(m.midi))
	if e.prevMIDI > 0 {
		m.likenessPrev = nearby(e.after, lagOf(e.prevMIDI))
	}
	m.offTune = e.tuning.off(m.midi)
}

// octave returns the step an octave higher when of all that is new at the
// harmonics of a step the odd ones have hardly a part, and what sounds there
// is fading while the even ones grow: then it is the octave that was struck. A
// string struck again fades or grows as a whole.
func (e *ear) octave(step int) int {
	n := e.newcomer
	higher := step + 12*stepsPerKey
	if higher >= len(n.combs) || n.score[higher] < octaveScore*n.score[step] {
		return step
	}
	var odd, even, oddAfter, oddBefore, evenAfter, evenBefore float64
	for h, t := range n.combs[step][:min(oddEvenHarmonics, len(n.combs[step]))] {
		x := max(0, t.on(n.fresh)-t.off(n.fresh))
		if h%2 == 1 { // the first harmonic is odd
			even += x
			evenAfter += t.on(n.after)
			evenBefore += t.on(n.before)
			continue
		}
		odd += x
		oddAfter += t.on(n.after)
		oddBefore += t.on(n.before)
	}
	if odd < oddShare*even && oddAfter < fading*oddBefore && evenAfter > evenBefore {
		return higher
	}
	return step
}

func (e *ear) plausibility(midi float64) float64 {
	lag := lagOf(midi)
	p := likenessWeight*(nearby(e.after, lag)-subharmonicWeight*shorterPeriod(e.after, lag)) - offTuneWeight*e.tuning.off(midi)
	if e.prevMIDI > 0 {
		p -= octaveLeapWeight * min(widestLeap, math.Abs(midi-e.prevMIDI)/12)
	}
	return p
}
