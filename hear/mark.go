package hear

import (
	"math"
	"slices"

	"heddle/exercise"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/stats"
)

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

// mark marks a take against its click, or by the tempo and the start found in it.
func mark(heard []Heard, tuningCents float64, ex *exercise.Exercise, opts TakeOptions) *Report {
	m := marker{aligner: aligner{heard: slices.Clone(heard), tuning: tuningCents / 100, written: writtenNotes(ex)}, ex: ex}
	var pairs []pair
	if opts.Clicked {
		m.quarterS, m.startS, m.clicked = 60/ex.Tempo, opts.ClickS, true
		pairs, _ = m.align()
	} else {
		pairs = m.findTempo()
	}
	pairs = m.withFalseStarts(m.inTime(pairs))
	m.settle(pairs)
	return m.report(pairs)
}

// A heard note that is farther than both of these from where a note is written is
// not that note.
const (
	farthestQuarters = 1.5
	farthestS        = 0.5
)

// inTime leaves out the pairs that are beats away from where they are written: by
// pitch alone, any note of a line would do for a missed one.
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

// withFalseStarts adds the wrong notes that attempts began with. A player who goes
// back may miss the very first note again; the alignment goes back only to a right
// one, because most unmatched notes are strays. One that lies where the note before
// the attempt's first should be is not a stray.
func (m *marker) withFalseStarts(pairs []pair) []pair {
	all := slices.Clone(pairs)
	for k := len(pairs) - 1; k > 0; k-- {
		first := pairs[k]
		if first.written > pairs[k-1].written || first.written == 0 {
			continue
		}
		if j := m.sureBefore(first.heard); j > pairs[k-1].heard && m.leadsTo(j, first) {
			all = slices.Insert(all, k, pair{written: first.written - 1, heard: j})
		}
	}
	return all
}

// sureBefore is the last sure note before another, or −1.
func (m *marker) sureBefore(j int) int {
	for j--; j >= 0 && m.heard[j].Confidence < listen.Sure; j-- {
	}
	return j
}

// leadsTo reports whether a heard note comes before a pair by about the time of
// one written note.
func (m *marker) leadsTo(j int, to pair) bool {
	stepS := m.step(to.written - 1)
	return m.lateness(m.heard[to.heard].OnsetS-m.heard[j].OnsetS-stepS, stepS) <= lateCost
}

// settle gives each paired note the pitch that it was paired for.
func (m *marker) settle(pairs []pair) {
	for _, p := range pairs {
		if as, ok := m.asWritten(p.written, p.heard); ok {
			h := &m.heard[p.heard]
			h.MIDI, h.Confidence = as.MIDI, listen.Probability(as.LogOdds)
		}
	}
}

func attempts(pairs []pair) [][]pair {
	return cut(pairs, func(a, b pair) bool { return b.written <= a.written })
}

// cut cuts the pairs wherever one must be in another part than the next.
func cut(pairs []pair, apart func(a, b pair) bool) (parts [][]pair) {
	start := 0
	for k := 1; k <= len(pairs); k++ {
		if k == len(pairs) || apart(pairs[k-1], pairs[k]) {
			parts = append(parts, pairs[start:k])
			start = k
		}
	}
	return parts
}

func (m *marker) report(pairs []pair) *Report {
	r := &Report{Clicked: m.clicked, TuningCents: round(m.tuning*100, 10), Extra: []int{}, Retried: []int{}, Before: []int{}}
	paired := make([]bool, len(m.heard))
	for _, p := range pairs {
		paired[p.heard] = true
	}
	kept := m.keep(r, paired)
	r.Marks = make([]NoteMark, len(m.written))
	missed := func(from, to int) {
		for i := from; i < to; i++ {
			r.Marks[i] = NoteMark{Index: i, Verdict: Missed, Heard: -1}
		}
	}
	missed(0, len(r.Marks))
	var all []stretch
	for _, attempt := range attempts(pairs) {
		stretches, timing := m.timing(attempt)
		all = append(all, stretches...)
		missed(attempt[0].written, attempt[len(attempt)-1].written+1)
		for k, p := range attempt {
			r.Marks[p.written] = m.mark(p, timing[k], kept)
		}
	}
	for _, p := range pairs {
		if r.Marks[p.written].Heard != kept[p.heard] {
			r.Retried = append(r.Retried, kept[p.heard])
		}
	}
	m.extras(r, paired, kept)
	change := m.setTempo(r, all)
	r.summarise()
	if m.clicked {
		r.BehindMS = r.Summary.TimingMSMedian
	}
	r.Advice = advise(r, m.ex, change)
	return r
}

// unaskedSure is the confidence from which an unpaired note is believed. What a
// player was not asked to play is more often the band next door than a finger.
const unaskedSure = 0.85

// keep copies the heard notes that are paired, or are sure enough without, and
// returns their new places.
func (m *marker) keep(r *Report, paired []bool) []int {
	kept := make([]int, len(m.heard))
	r.Heard = []Heard{}
	for j, h := range m.heard {
		kept[j] = -1
		if paired[j] || h.Confidence >= unaskedSure && !m.wavers(j) {
			kept[j] = len(r.Heard)
			h.OnsetS, h.OffsetS, h.MIDI = round(h.OnsetS, 1e4), round(h.OffsetS, 1e4), round(h.MIDI, 100)
			h.Confidence, h.Level = round(h.Confidence, 100), round(h.Level, 10)
			r.Heard = append(r.Heard, h)
		}
	}
	return kept
}

// waverKeys is how far, in semitones, a vibrato or a bend takes a note that nobody
// struck again.
const waverKeys = 0.75

// wavers reports whether a heard note is the one before it with its pitch moved.
func (m *marker) wavers(j int) bool {
	before := m.sureBefore(j)
	return m.heard[j].evidence.Slid && before >= 0 && math.Abs(m.heard[j].MIDI-m.heard[before].MIDI) < waverKeys
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

const (
	// ghostDB against the median level: a note that is softer is a ghost or grace
	// note, and not extra.
	ghostDB = -15
	// beforeQuarters is how long before the line, in quarter notes, a sound is not
	// part of the take: a count-in, a string that is tried.
	beforeQuarters = 0.75
)

// extras finds what was played but is not written, in the take and before it.
func (m *marker) extras(r *Report, paired []bool, kept []int) {
	var levels []float64
	beginsS := math.Inf(1)
	for j, h := range m.heard {
		if h.Confidence >= listen.Sure {
			levels = append(levels, h.Level)
		}
		if paired[j] {
			beginsS = min(beginsS, h.OnsetS-beforeQuarters*m.quarterS)
		}
	}
	softest := stats.Median(levels) + ghostDB
	for j, h := range m.heard {
		switch {
		case paired[j] || kept[j] < 0 || h.Level < softest:
		case !math.IsInf(beginsS, 1) && h.OnsetS < beginsS:
			r.Before = append(r.Before, kept[j])
		default:
			r.Extra = append(r.Extra, kept[j])
		}
	}
}

// round rounds to so many parts of a unit.
func round(x, parts float64) float64 {
	return math.Round(x*parts)/parts + 0 // not −0
}
