package hear

import (
	"math"

	"heddle/exercise"
)

// A Follower marks a take while it is played to a click. Its verdicts come
// as soon as a note is heard; a verdict may be given again when a surer note
// takes the place, and the last one counts. Mark, after the take, knows more
// than it: restarts, doubts and the whole take's tuning.
type Follower struct {
	listener *Listener
	notes    []written
	dueS     []float64   // when each written note should sound
	verdicts []Verdict   // given so far
	takenBy  []int       // live note that stands for each written note, −1 for none
	standsAt map[int]int // written note by live note
	past     int         // written notes before this are settled
	heardS   float64
	fed      int
	rate     int
}

// latestS is how long after its time, besides half the time to the next
// note, a note may still be heard before it is called missed; it covers the
// wait for a live verdict on a low note.
const latestS = 0.15

// NewFollower follows an exercise played to a click of the given tempo whose
// first bar line falls clickS after the first sample fed. The instrument's
// strings bound what is heard.
func NewFollower(rate int, ex *exercise.Exercise, tempo, clickS float64) (*Follower, error) {
	if !(tempo >= 20 && tempo <= 400) {
		return nil, badTempo(tempo)
	}
	l, err := NewListener(rate, OptionsFor(ex))
	if err != nil {
		return nil, err
	}
	f := &Follower{listener: l, notes: writtenNotes(ex), rate: rate, standsAt: map[int]int{}}
	f.verdicts = make([]Verdict, len(f.notes))
	click := pulse{startS: clickS, quarterS: 60 / tempo}
	for _, n := range f.notes {
		f.dueS = append(f.dueS, click.at(n.quarters))
		f.takenBy = append(f.takenBy, -1)
	}
	return f, nil
}

// Feed takes the next samples and returns the verdicts they bring.
func (f *Follower) Feed(x []float32) []NoteMark {
	f.fed += len(x)
	f.heardS = float64(f.fed) / float64(f.rate)
	var marks []NoteMark
	for _, n := range f.listener.Feed(x) {
		if m, ok := f.place(n); ok {
			marks = append(marks, m)
		}
	}
	return append(marks, f.missed()...)
}

// Finish returns the verdicts that the end of the take brings. After it every
// written note has one; nothing may be fed any more.
func (f *Follower) Finish() []NoteMark {
	var marks []NoteMark
	for _, n := range f.listener.Finish() {
		if m, ok := f.place(n); ok {
			marks = append(marks, m)
		}
	}
	f.heardS = math.Inf(1)
	return append(marks, f.missed()...)
}

// Heard returns the notes heard so far.
func (f *Follower) Heard() []Heard { return f.listener.Heard() }

// place finds the written note that a live one stands for.
func (f *Follower) place(n LiveNote) (NoteMark, bool) {
	old, told := f.standsAt[n.Number]
	if told {
		f.takenBy[old] = -1
		delete(f.standsAt, n.Number)
	}
	if n.Confidence < sure {
		return f.withdraw(old, told)
	}
	best, bestCost := -1, math.Inf(1)
	for i := range f.notes {
		late := n.OnsetS - f.dueS[i]
		if math.Abs(late) > f.reach(i) {
			continue
		}
		cost := math.Abs(late) / f.reach(i)
		if !f.right(i, n) {
			cost += wrongCost
		}
		if f.takenBy[i] >= 0 && (f.verdicts[i] == Right || !f.right(i, n)) {
			continue
		}
		if cost < bestCost {
			best, bestCost = i, cost
		}
	}
	if best < 0 {
		return NoteMark{}, false
	}
	f.takenBy[best], f.standsAt[n.Number] = n.Number, best
	f.verdicts[best] = Wrong
	if f.right(best, n) {
		f.verdicts[best] = Right
	}
	return NoteMark{
		Index: best, Verdict: f.verdicts[best], Heard: n.Number,
		TimingMS: round(1000*(n.OnsetS-f.dueS[best]), 1),
		Cents:    round(100*f.off(best, n), 1),
	}, true
}

// withdraw takes back the verdict on a written note whose note was none.
func (f *Follower) withdraw(written int, told bool) (NoteMark, bool) {
	if !told {
		return NoteMark{}, false
	}
	f.verdicts[written] = ""
	if written >= f.past {
		return NoteMark{}, false // missed tells what becomes of it
	}
	f.verdicts[written] = Missed
	return NoteMark{Index: written, Verdict: Missed, Heard: -1}, true
}

// reach is how far in time a note may be played from where it is due: to
// half way to its neighbours and a little over.
func (f *Follower) reach(i int) float64 {
	gap := math.Inf(1)
	if i > 0 {
		gap = min(gap, f.dueS[i]-f.dueS[i-1])
	}
	if i+1 < len(f.dueS) {
		gap = min(gap, f.dueS[i+1]-f.dueS[i])
	}
	return 0.6*min(gap, 0.5) + 0.02
}

func (f *Follower) off(i int, n LiveNote) float64 {
	return n.MIDI - float64(f.listener.Tuning())/100 - float64(f.notes[i].key)
}

func (f *Follower) right(i int, n LiveNote) bool { return math.Abs(f.off(i, n)) <= 0.5 }

// missed settles the notes whose time is over.
func (f *Follower) missed() []NoteMark {
	var marks []NoteMark
	for f.past < len(f.notes) && f.dueS[f.past]+f.reach(f.past)+latestS < f.heardS {
		if f.verdicts[f.past] == "" {
			f.verdicts[f.past] = Missed
			marks = append(marks, NoteMark{Index: f.past, Verdict: Missed, Heard: -1})
		}
		f.past++
	}
	return marks
}
