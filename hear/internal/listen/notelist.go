package listen

import (
	"cmp"
	"math"
	"slices"
)

// A noteList takes the moments that are likelier notes than not, and of two
// within one stroke the likelier.
type noteList struct {
	notes   []Note
	odds    []float64 // log odds by note
	doubts  []Note    // moments that are less likely notes than not
	strokeS float64   // onset of the last stroke without a clear pitch
	last    int       // number of the note that came last

	live bool // doubts go among the notes, so that they can be revised
}

// Two attacks closer than strokeS are one stroke: it is the time between two
// sixteenths at 300. Two with different pitches may be closer, to rushedS: in a
// rushed line one finger is early and the next is not. A clear pitch may follow
// its stroke by clearAfterS.
const (
	strokeS     = 0.047
	rushedS     = 0.030
	clearAfterS = 0.075
)

// The log odds below which a moment is not even a doubt: live, where a doubt is
// shown at once, and in a recording, where it counts only if a written note of
// its pitch would otherwise be missed (98 % of those are the note).
const (
	FaintestLive     = -5
	faintestRecorded = -6.5
)

// add takes the next moment and returns the number of the note that it brings or
// improves, or −1.
func (l *noteList) add(m *Moment) int {
	odds := m.odds()
	n := m.note()
	if odds < 0 {
		return l.addDoubt(n, odds, m.edgeDB > edgeLeastDB)
	}
	if m.edgeDB == 0 && n.OnsetS-l.strokeS < clearAfterS && (len(l.notes) == 0 || l.notes[l.last].OnsetS < l.strokeS-rushedS) {
		n.OnsetS = l.strokeS
	}
	if last := l.last; len(l.notes) > 0 && oneStroke(l.notes[last], n) {
		if odds < l.odds[last] {
			return -1
		}
		n.OnsetS = l.notes[last].OnsetS
		l.notes[last], l.odds[last] = n, odds
		return last
	}
	l.last = l.push(n, odds)
	return l.last
}

func (l *noteList) push(n Note, odds float64) (number int) {
	l.notes, l.odds = append(l.notes, n), append(l.odds, odds)
	return len(l.notes) - 1
}

func (l *noteList) addDoubt(n Note, odds float64, stroke bool) int {
	if stroke {
		l.strokeS = n.OnsetS
	}
	if l.live {
		return l.push(n, odds)
	}
	l.doubts = append(l.doubts, n)
	return -1
}

func oneStroke(last, n Note) bool {
	apart := n.OnsetS - last.OnsetS
	if math.Abs(n.MIDI-last.MIDI) < SamePitch {
		return apart < strokeS
	}
	return apart < rushedS
}

// lateNotes is how many notes before it a late note is compared with.
const lateNotes = 4

// revise enters a live moment again, whose note has this number, or −1 if it had none.
func (l *noteList) revise(m *Moment, number int) {
	n, odds := m.note(), m.odds()
	if number >= 0 {
		if l.notes[number].OnsetS == n.OnsetS { // else another stroke has taken its place
			l.notes[number], l.odds[number] = n, odds
		}
		return
	}
	near := func(other Note) bool { return other.Confidence >= Sure && math.Abs(other.OnsetS-n.OnsetS) < strokeS }
	if odds >= FaintestLive && !slices.ContainsFunc(l.notes[max(0, len(l.notes)-lateNotes):], near) {
		l.push(n, odds)
	}
}

// withDoubts returns the notes, and the doubts that don't repeat a note, in order.
func (l *noteList) withDoubts() []Note {
	all := slices.Clone(l.notes)
	for _, d := range l.doubts {
		if !l.repeats(d) {
			all = append(all, d)
		}
	}
	slices.SortStableFunc(all, func(a, b Note) int { return cmp.Compare(a.OnsetS, b.OnsetS) })
	return all
}

func (l *noteList) repeats(d Note) bool {
	i, _ := slices.BinarySearchFunc(l.notes, d.OnsetS, func(n Note, s float64) int { return cmp.Compare(n.OnsetS, s) })
	for _, n := range l.notes[max(0, i-1):min(len(l.notes), i+1)] {
		if math.Abs(n.OnsetS-d.OnsetS) < strokeS && math.Abs(n.MIDI-d.MIDI) < SamePitch {
			return true
		}
	}
	return false
}
