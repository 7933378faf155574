package listen

import (
	"cmp"
	"math"
	"slices"

	"heddle/hear/internal/spectral"
)

// A Candidate is a pitch that a moment may bring.
type Candidate struct {
	MIDI     float64
	Features [FeatureCount]float32
	LogOdds  float64 // that a note of this pitch begins here

	levelDB float64 // of what is new at its harmonics
}

// What a pitch gains for being periodic, and loses for being far from the note
// before, in units of the best score, when candidates are chosen.
const (
	similarityWeight  = 0.2
	subharmonicWeight = 0.5
	leapWeight        = 0.05
	widestLeap        = 2.0 // octaves; beyond, all leaps count the same
	offTuneWeight     = 0.15
	// A stroke that brings little new repeats what sounds already.
	repeatWeight = 0.5
	repeatBelow  = 0.35
)

// findCandidates finds the pitches that a moment may bring.
func (t *tracker) findCandidates(m *Moment) {
	n := t.novelty
	whole, fresh := 1e-9, 0.0
	for k, teeth := range n.combs {
		t.sounding[k] = scoreComb(teeth, n.whole)
		whole, fresh = max(whole, t.sounding[k]), max(fresh, n.score[k])
	}
	again := repeatWeight * max(0, 1-fresh/whole/repeatBelow)
	for k := range t.total {
		t.total[k] = (n.score[k]+again*t.sounding[k])/whole + t.plausibility(n.midi(k), m.prevMIDI)
	}
	copy(t.sorted, n.score)
	slices.SortFunc(t.sorted, cmp.Compare[float64])
	m.contrast = (fresh - t.sorted[len(t.sorted)/2]) / whole
	if m.prevMIDI > 0 {
		m.similarToPrev = spectral.PeakAt(t.after, lagOf(m.prevMIDI))
	}
	t.classify(m, t.candidateSteps(m.prevMIDI), whole, fresh)
}

func (t *tracker) plausibility(midi, prevMIDI float64) float64 {
	lag := lagOf(midi)
	p := similarityWeight*(spectral.PeakAt(t.after, lag)-subharmonicWeight*spectral.ShorterPeriod(t.after, lag)) - offTuneWeight*t.tuning.off(midi)
	if prevMIDI > 0 {
		p -= leapWeight * min(widestLeap, math.Abs(midi-prevMIDI)/12)
	}
	return p
}

// classify measures and classifies the candidates at these steps.
func (t *tracker) classify(m *Moment, steps []int, whole, fresh float64) {
	for _, step := range steps {
		next := 0.0
		for _, other := range steps {
			if other != step {
				next = max(next, t.total[other])
			}
		}
		c := Candidate{MIDI: t.novelty.refine(t.novelty.midi(step))}
		if math.Abs(c.MIDI-t.novelty.midi(step)) > SamePitch {
			c.MIDI = t.novelty.midi(step)
		}
		t.setFeatures(m, &c, step, whole, fresh, next)
		c.LogOdds = m.classifier().LogOdds(&c.Features)
		m.Candidates = append(m.Candidates, c)
	}
}

// peaksKept is how many of the pitches that stand out are candidates. Up to four
// more are for other reasons.
const peaksKept = 4

// candidateSteps lists the pitches that stand out from their neighbours, best
// first; then the octaves of the best, which are the commonest mistakes; the
// pitch of the note before, of which a second stroke may bring little that is
// new; and the pitch of the sound's period, which no timbre can hide.
func (t *tracker) candidateSteps(prevMIDI float64) []int {
	last := len(t.total) - 1
	var peaks []int
	for k, s := range t.total {
		if (k == 0 || s > t.total[k-1]) && (k == last || s >= t.total[k+1]) {
			peaks = append(peaks, k)
		}
	}
	slices.SortFunc(peaks, func(a, b int) int { return cmp.Compare(t.total[b], t.total[a]) })
	var kept []int
	add := func(k int) {
		near := func(other int) bool { return math.Abs(float64(k-other)) < SamePitch*stepsPerKey }
		if k >= 0 && k <= last && !slices.ContainsFunc(kept, near) {
			kept = append(kept, k)
		}
	}
	for _, k := range peaks {
		if add(k); len(kept) == peaksKept {
			break
		}
	}
	if len(kept) > 0 {
		add(t.topAround(kept[0] + 12*stepsPerKey))
		add(t.topAround(kept[0] - 12*stepsPerKey))
	}
	if prevMIDI > 0 {
		add(t.topAround(t.novelty.step(prevMIDI)))
	}
	if lag := shortestPeriod(t.after); lag > 0 {
		add(t.topAround(t.novelty.step(keyOf(lag))))
	}
	return kept
}

// topAround is the best step within a quarter tone of one.
func (t *tracker) topAround(step int) int {
	const reach = stepsPerKey / 2
	best := step
	for k := max(0, step-reach); k <= min(len(t.total)-1, step+reach); k++ {
		if best < 0 || best >= len(t.total) || t.total[k] > t.total[best] {
			best = k
		}
	}
	return best
}
