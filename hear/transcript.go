package hear

import (
	"cmp"
	"math"
	"slices"
)

// A transcript turns moments into notes: it takes those that are more likely
// notes than not, and of two within one stroke the likelier.
type transcript struct {
	ear    *ear
	told   func(number int) // of each note as it comes or changes, when set
	doubts bool             // keep what is likely no note too
	notes  []Heard
	faint  []Heard
	odds   []float64 // by note
	under  []float64 // by note: dB against the loudest until then
	peakDB float64   // of the last note so far
	over   int       // notes that have their offset
}

// strokeS is the shortest time between two notes of one line: two sixteenths
// at 300. Two attacks closer than this are one stroke.
const strokeS = 0.047

// loudShare is the share of a take's notes that are softer than what counts
// as its loudness.
const loudShare = 0.75

// faintest is the confidence below which a moment is not even a doubt.
const faintest = 0.01

func newTranscript(opts Options) *transcript {
	t := &transcript{doubts: opts.Doubts}
	t.ear = newEar(opts, t.take)
	t.ear.faded = t.fade
	return t
}

func (t *transcript) take(m moment) {
	odds := m.odds()
	h := Heard{OnsetS: m.onsetS, OffsetS: m.onsetS + m.lookS, MIDI: m.midi, Confidence: m.confidence(), Level: m.levelDB}
	if odds < 0 {
		if t.doubts && h.Confidence >= faintest {
			t.faint = append(t.faint, h)
		}
		return
	}
	if n := len(t.notes); n > 0 && m.onsetS-t.notes[n-1].OnsetS < strokeS {
		if odds < t.odds[n-1] {
			return
		}
		h.OnsetS = t.notes[n-1].OnsetS
		t.notes[n-1], t.odds[n-1], t.under[n-1] = h, odds, m.underDB
	} else {
		if n > t.over {
			t.notes[n-1].OffsetS = h.OnsetS
			t.over = n
		}
		t.notes, t.odds, t.under = append(t.notes, h), append(t.odds, odds), append(t.under, m.underDB)
	}
	t.ear.took(m)
	if t.told != nil {
		t.told(len(t.notes) - 1)
	}
}

// overDB is how far a note's level falls before the note is over.
const overDB = 25

// fade ends the last note when it has died away.
func (t *transcript) fade(atS, levelDB float64) {
	n := len(t.notes)
	if n == 0 || n == t.over || atS < t.notes[n-1].OnsetS {
		t.peakDB = -200
		return
	}
	t.peakDB = max(t.peakDB, levelDB)
	t.notes[n-1].OffsetS = atS
	if levelDB < t.peakDB-overDB {
		t.over = n
	}
}

// heard returns the notes in order, with the doubts that are no echo of a
// note.
func (t *transcript) heard() []Heard {
	all := t.reweighed()
	for _, f := range t.faint {
		if !t.echo(f) {
			all = append(all, f)
		}
	}
	slices.SortStableFunc(all, func(a, b Heard) int { return cmp.Compare(a.OnsetS, b.OnsetS) })
	return all
}

// reweighed weighs the notes once more when the loudness of the whole take is
// known: before the first note a band next door is the loudest there is.
func (t *transcript) reweighed() []Heard {
	levels := make([]float64, len(t.notes))
	for i, h := range t.notes {
		levels[i] = h.Level
	}
	loud := quantile(levels, loudShare)
	var kept []Heard
	for i, h := range t.notes {
		if under := h.Level - loud; under < t.under[i] {
			odds := t.odds[i] + freshWeights[underWeight]*(max(under, -40)-max(t.under[i], -40))/10
			h.Confidence = 1 / (1 + math.Exp(-odds))
		}
		if h.Confidence >= sure || t.doubts && h.Confidence >= faintest {
			kept = append(kept, h)
		}
	}
	return kept
}

func (t *transcript) echo(f Heard) bool {
	i, _ := slices.BinarySearchFunc(t.notes, f.OnsetS, func(h Heard, s float64) int { return cmp.Compare(h.OnsetS, s) })
	for _, h := range t.notes[max(0, i-1):min(len(t.notes), i+1)] {
		if math.Abs(h.OnsetS-f.OnsetS) < strokeS && math.Abs(h.MIDI-f.MIDI) < samePitch {
			return true
		}
	}
	return false
}
