package hear

import (
	"cmp"
	"math"
	"slices"
)

// A reading takes the moments that are likelier notes than not, and of two
// within one stroke the likelier.
type reading struct {
	notes   []Heard
	odds    []float64 // by note
	faint   []Heard   // what is likely no note
	strokeS float64   // of the last stroke that brought no clear pitch
	last    int       // number of the note that came last
	doubts  bool      // live, number what is likely no note too
}

// strokeS is the shortest time between two notes of one line: two sixteenths
// at 300. Two attacks closer than this are one stroke.
// Two that bring different pitches may come nearer: one finger of a rushed
// line is early, the next is not.
const (
	strokeS = 0.047
	rushedS = 0.030
	slowS   = 0.075 // by which a clear pitch may follow its stroke
)

// The odds below which a moment is not even a doubt, as a logarithm: live, where
// a doubt is shown at once, and in a whole recording, where it counts only if a
// written note of its pitch would else be missed. In the evaluation's takes 98 %
// of the doubts so taken were the note.
const (
	faintest      = -5
	faintestWhole = -6.5
)

// add takes the next moment and returns the number of the note that it
// brings or betters, or −1.
func (r *reading) add(m *moment) int {
	odds := m.odds()
	h := m.heard()
	if odds < 0 {
		return r.doubt(h, odds, m.edgeDB > edgeLeastDB)
	}
	if m.edgeDB == 0 && h.OnsetS-r.strokeS < slowS && (len(r.notes) == 0 || r.notes[r.last].OnsetS < r.strokeS-rushedS) {
		h.OnsetS = r.strokeS
	}
	if last := r.last; len(r.notes) > 0 && r.oneStroke(last, h) {
		if odds < r.odds[last] {
			return -1
		}
		h.OnsetS = r.notes[last].OnsetS
		r.notes[last], r.odds[last] = h, odds
		return last
	}
	r.last = len(r.notes)
	r.notes, r.odds = append(r.notes, h), append(r.odds, odds)
	return r.last
}

// doubt keeps what is likely no note. Live it has a number, so that it can be
// told at once and bettered later.
func (r *reading) doubt(h Heard, odds float64, stroke bool) int {
	if stroke {
		r.strokeS = h.OnsetS
	}
	if !r.doubts {
		r.faint = append(r.faint, h)
		return -1
	}
	r.notes, r.odds = append(r.notes, h), append(r.odds, odds)
	return len(r.notes) - 1
}

func (r *reading) oneStroke(last int, h Heard) bool {
	apart := h.OnsetS - r.notes[last].OnsetS
	if math.Abs(h.MIDI-r.notes[last].MIDI) < samePitch {
		return apart < strokeS
	}
	return apart < rushedS
}

// revise enters a moment whose note, if it brought one, has a number, and
// returns the number of the note that has changed by it, or −1. A note that
// turns out to be none keeps its place with a confidence that says so.
func (r *reading) revise(m *moment, number int) int {
	h, odds := m.heard(), m.odds()
	if number < 0 {
		least := 0.0
		if r.doubts {
			least = faintest
		}
		near := func(n Heard) bool { return n.Confidence >= sure && math.Abs(n.OnsetS-h.OnsetS) < strokeS }
		if odds < least || slices.ContainsFunc(r.notes[max(0, len(r.notes)-lateNotes):], near) {
			return -1
		}
		r.notes, r.odds = append(r.notes, h), append(r.odds, odds)
		return len(r.notes) - 1
	}
	n := &r.notes[number]
	if n.OnsetS != h.OnsetS {
		return -1 // another stroke has taken its place
	}
	changed := math.Abs(n.MIDI-h.MIDI) > revisedBy || (odds < 0) != (r.odds[number] < 0)
	*n, r.odds[number] = h, odds
	if !changed {
		return -1
	}
	return number
}

// A note that is found late is held against the last lateNotes before it. A
// pitch is told anew when it has moved by revisedBy semitones.
const (
	lateNotes = 4
	revisedBy = 0.25
)

// withDoubts returns the notes and the doubts that are no echo of a note, in
// order.
func (r *reading) withDoubts() []Heard {
	all := slices.Clone(r.notes)
	for _, f := range r.faint {
		if !r.echo(f) {
			all = append(all, f)
		}
	}
	slices.SortStableFunc(all, func(a, b Heard) int { return cmp.Compare(a.OnsetS, b.OnsetS) })
	return all
}

func (r *reading) echo(f Heard) bool {
	i, _ := slices.BinarySearchFunc(r.notes, f.OnsetS, func(h Heard, s float64) int { return cmp.Compare(h.OnsetS, s) })
	for _, h := range r.notes[max(0, i-1):min(len(r.notes), i+1)] {
		if math.Abs(h.OnsetS-f.OnsetS) < strokeS && math.Abs(h.MIDI-f.MIDI) < samePitch {
			return true
		}
	}
	return false
}
