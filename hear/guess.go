package hear

import (
	"cmp"
	"math"
	"slices"
)

// What a pitch gains for being periodic, and loses for being far from the
// note before, in units of the best score, before candidates are chosen.
const (
	likenessWeight    = 0.2
	subharmonicWeight = 0.5
	octaveLeapWeight  = 0.05
	widestLeap        = 2.0 // octaves; beyond, all leaps count the same
	offTuneWeight     = 0.15
	// A stroke that brings little new strikes what sounds already.
	repeatWeight = 0.5
	repeatBelow  = 0.35
)

// guess finds the pitches that a moment may bring.
func (e *ear) guess(m *moment) {
	n := e.newcomer
	whole, fresh := 1e-9, 0.0
	for k, teeth := range n.combs {
		e.sounding[k] = scoreComb(teeth, n.whole)
		whole, fresh = max(whole, e.sounding[k]), max(fresh, n.score[k])
	}
	again := repeatWeight * max(0, 1-fresh/whole/repeatBelow)
	for k := range e.total {
		e.total[k] = (n.score[k]+again*e.sounding[k])/whole + e.plausibility(n.midi(k), m.prevMIDI)
	}
	copy(e.order, n.score)
	slices.SortFunc(e.order, cmp.Compare[float64])
	m.contrast = (fresh - e.order[len(e.order)/2]) / whole
	if m.prevMIDI > 0 {
		m.likenessPrev = nearby(e.after, lagOf(m.prevMIDI))
	}
	e.weigh(m, whole, fresh)
}

func (e *ear) plausibility(midi, prevMIDI float64) float64 {
	lag := lagOf(midi)
	p := likenessWeight*(nearby(e.after, lag)-subharmonicWeight*shorterPeriod(e.after, lag)) - offTuneWeight*e.tuning.off(midi)
	if prevMIDI > 0 {
		p -= octaveLeapWeight * min(widestLeap, math.Abs(midi-prevMIDI)/12)
	}
	return p
}

// weigh judges each candidate.
func (e *ear) weigh(m *moment, whole, fresh float64) {
	n := e.newcomer
	steps := e.candidates(m.prevMIDI)
	m.candidates = m.candidates[:0]
	for _, step := range steps {
		next := 0.0
		for _, other := range steps {
			if other != step {
				next = max(next, e.total[other])
			}
		}
		c := candidate{midi: n.refine(n.midi(step))}
		if math.Abs(c.midi-n.midi(step)) > samePitch {
			c.midi = n.midi(step)
		}
		e.signs(m, &c, step, whole, fresh, next)
		c.odds = m.judge().odds(&c.signs)
		m.candidates = append(m.candidates, c)
	}
}
