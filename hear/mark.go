package hear

import (
	"math"
	"slices"

	"heddle/exercise"
)

// A note is extra only when it is no softer than this against the median:
// softer ones are ghost and grace notes.
const ghostDB = -15

// ownBeatQuarters is how far around a note the player's own beat is taken
// from: two bars of four on each side, so that drift of the tempo is not
// called bad timing and a rushed group still is.
const ownBeatQuarters = 8

// markToClick marks a take whose click has the exercise's tempo and its first
// bar line at clickS.
func markToClick(heard []Heard, tuning Tuning, ex *exercise.Exercise, clickS float64) *Report {
	m := newMarker(heard, tuning, ex)
	m.quarterS, m.startS, m.fixed = 60/ex.Tempo, clickS, true
	return m.marked()
}

// markByOwnBeat marks a take by the tempo and the start found in it.
func markByOwnBeat(heard []Heard, tuning Tuning, ex *exercise.Exercise) *Report {
	return newMarker(heard, tuning, ex).marked()
}

func writtenNotes(ex *exercise.Exercise) []written {
	notes := make([]written, len(ex.Notes))
	for i, n := range ex.Notes {
		notes[i] = written{key: n.Pitch.MIDI(), quarters: ex.Rhythm.Sounding(n.Start).Quarters()}
	}
	return notes
}

// A marker marks one take.
type marker struct {
	aligner
	ex *exercise.Exercise
}

func newMarker(heard []Heard, tuning Tuning, ex *exercise.Exercise) *marker {
	return &marker{aligner: aligner{heard: slices.Clone(heard), tuning: float64(tuning) / 100, written: writtenNotes(ex)}, ex: ex}
}

func (m *marker) marked() *Report {
	pairs := m.withFalseStarts(m.pairs())
	m.settle(pairs)
	return m.report(pairs)
}

// pairs aligns the take.
func (m *marker) pairs() []pair {
	if m.fixed {
		pairs, _ := m.align()
		return m.inTime(pairs)
	}
	return m.inTime(m.findTempo())
}

// farthestQuarters is how far from the beat a written note may be played, in
// quarter notes, and farthestS in seconds: what is farther off than both is not
// that note.
const (
	farthestQuarters = 1.5
	farthestS        = 0.5
)

// inTime leaves out the pairs that are beats away from where they are written:
// by pitch alone any note of a line would do for a missed one.
func (m *marker) inTime(pairs []pair) []pair {
	var near []pair
	for _, attempt := range attempts(pairs) {
		_, lateS := m.timing(attempt)
		for k, p := range attempt {
			if math.Abs(lateS[k]) <= max(farthestS, farthestQuarters*m.quarterS) {
				near = append(near, p)
			}
		}
	}
	return near
}

// settle gives each paired note the pitch that it was paired for.
func (m *marker) settle(pairs []pair) {
	for _, p := range pairs {
		if as, ok := m.asWritten(p.written, p.heard); ok {
			h := &m.heard[p.heard]
			h.MIDI, h.Confidence = as.midi, probability(as.odds)
		}
	}
}

// attempts cuts the pairs where the player went back.
func attempts(pairs []pair) [][]pair {
	var cut [][]pair
	start := 0
	for k := 1; k <= len(pairs); k++ {
		if k == len(pairs) || pairs[k].written <= pairs[k-1].written {
			cut = append(cut, pairs[start:k])
			start = k
		}
	}
	return cut
}

func (m *marker) report(pairs []pair) *Report {
	r := &Report{Clicked: m.fixed, TuningCents: round(m.tuning*100, 0.1), Extra: []int{}, Retried: []int{}, Before: []int{}}
	kept := m.keep(r, pairs)
	r.Marks = make([]NoteMark, len(m.written))
	for i := range r.Marks {
		r.Marks[i] = NoteMark{Index: i, Verdict: Missed, Heard: -1}
	}
	var all []stretch
	for _, attempt := range attempts(pairs) {
		stretches, timing := m.timing(attempt)
		all = append(all, stretches...)
		for i := attempt[0].written; i <= attempt[len(attempt)-1].written; i++ {
			r.Marks[i] = NoteMark{Index: i, Verdict: Missed, Heard: -1}
		}
		for k, p := range attempt {
			r.Marks[p.written] = m.mark(p, timing[k], kept)
		}
	}
	for _, p := range pairs {
		if r.Marks[p.written].Heard != kept[p.heard] {
			r.Retried = append(r.Retried, kept[p.heard])
		}
	}
	m.extras(r, pairs, kept)
	m.setTempo(r, all)
	r.summarise()
	if m.fixed {
		r.BehindMS = r.Summary.TimingMSMedian
	}
	r.Advice = advise(r, m.ex)
	return r
}

// unaskedSure is the confidence from which a note is believed that stands for
// no written one. What a player was not asked to play is more often the band
// next door than a finger.
const unaskedSure = 0.85

// keep copies the heard notes that stand for a written one or are sure enough
// without, and returns their new places.
func (m *marker) keep(r *Report, pairs []pair) []int {
	paired := make([]bool, len(m.heard))
	for _, p := range pairs {
		paired[p.heard] = true
	}
	kept := make([]int, len(m.heard))
	r.Heard = []Heard{}
	for j, h := range m.heard {
		kept[j] = -1
		if paired[j] || h.Confidence >= unaskedSure && !m.wavers(j) {
			kept[j] = len(r.Heard)
			h.OnsetS, h.OffsetS, h.MIDI = round(h.OnsetS, 1e-4), round(h.OffsetS, 1e-4), round(h.MIDI, 0.01)
			h.Confidence, h.Level = round(h.Confidence, 0.01), round(h.Level, 0.1)
			r.Heard = append(r.Heard, h)
		}
	}
	return kept
}

// waverKeys is how far, in semitones, a vibrato or a bend takes a note that
// nobody struck again.
const waverKeys = 0.75

// wavers reports whether a heard note is the one before it with its pitch moved.
func (m *marker) wavers(j int) bool {
	before := m.sureBefore(j)
	return m.heard[j].slid && before >= 0 && math.Abs(m.heard[j].MIDI-m.heard[before].MIDI) < waverKeys
}

func (m *marker) mark(p pair, timingS float64, kept []int) NoteMark {
	verdict := Wrong
	if m.right(p.written, p.heard) {
		verdict = Right
	}
	return NoteMark{
		Index: p.written, Verdict: verdict, Heard: kept[p.heard], TimingMS: round(timingS*1000, 1),
		Cents: round(100*(m.heard[p.heard].MIDI-m.tuning-float64(m.written[p.written].key)), 1),
	}
}

// beforeQuarters is how long before the line, in quarter notes, what sounds is
// no part of the take: a count-in, a string that is tried.
const beforeQuarters = 0.75

// extras finds what was played but is not written, in the take and before it.
func (m *marker) extras(r *Report, pairs []pair, kept []int) {
	var levels []float64
	for _, h := range m.heard {
		if h.Confidence >= sure {
			levels = append(levels, h.Level)
		}
	}
	loudness := median(levels)
	paired := make([]bool, len(m.heard))
	beginsS := math.Inf(1)
	for _, p := range pairs {
		paired[p.heard] = true
		beginsS = min(beginsS, m.heard[p.heard].OnsetS-beforeQuarters*m.quarterS)
	}
	for j, h := range m.heard {
		switch {
		case paired[j] || kept[j] < 0 || h.Level < loudness+ghostDB:
		case len(pairs) > 0 && h.OnsetS < beginsS:
			r.Before = append(r.Before, kept[j])
		default:
			r.Extra = append(r.Extra, kept[j])
		}
	}
}

func (r *Report) summarise() {
	var timing []float64
	for _, m := range r.Marks {
		switch m.Verdict {
		case Right:
			r.Summary.Right++
		case Wrong:
			r.Summary.Wrong++
		case Missed:
			r.Summary.Missed++
			continue
		}
		timing = append(timing, m.TimingMS)
	}
	r.Summary.Extra = len(r.Extra)
	r.Summary.TimingMSMedian = round(median(timing), 0.1)
	r.Summary.TimingMSSpread = round((quantile(timing, 0.84)-quantile(timing, 0.16))/2, 0.1)
}

func round(x, to float64) float64 {
	r := math.Round(x/to) * to
	// The nearest decimal, so that 0.1 is written as such.
	if to < 1 {
		d := math.Round(1 / to)
		r = math.Round(x*d) / d
	}
	if r == 0 {
		return 0 // not −0
	}
	return r
}
