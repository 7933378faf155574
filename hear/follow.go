package hear

import (
	"math"

	"heddle/exercise"
)

// A Follower marks a take while it is played to a click. Its verdicts come
// as soon as a note is heard; a verdict is given again when a surer note takes
// the place, or when more was heard of a note or of the guitar's tuning, and the
// last one counts. Mark, after the take, knows more than it: restarts, doubts
// and how loud the whole take is.
type Follower struct {
	listener *Listener
	notes    []written
	dueS     []float64   // when each written note should sound
	given    []NoteMark  // the last mark of each written note, without a verdict before the first
	takenBy  []int       // live note that stands for each written note, −1 for none
	standsAt map[int]int // written note by live note
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
	f.given = make([]NoteMark, len(f.notes))
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
	return f.news(f.listener.Feed(x))
}

// Finish returns the verdicts that the end of the take brings. After it every
// written note has one; nothing may be fed any more.
func (f *Follower) Finish() []NoteMark {
	f.heardS = math.Inf(1)
	return f.news(f.listener.Finish())
}

// news places what was heard and returns the marks that are new or have
// changed.
func (f *Follower) news(heard []LiveNote) []NoteMark {
	a := aligner{written: f.notes, heard: f.listener.transcript.reading.notes, tuning: float64(f.listener.Tuning()) / 100}
	for _, n := range heard {
		f.place(&a, n)
	}
	var marks []NoteMark
	for i, last := range f.given {
		m := f.mark(&a, i)
		if m.Verdict == "" || m.Verdict == last.Verdict && m.Heard == last.Heard {
			continue
		}
		f.given[i] = m
		marks = append(marks, m)
	}
	return marks
}

// mark is the mark of a written note as things stand. It has no verdict while
// the note may still come.
func (f *Follower) mark(a *aligner, i int) NoteMark {
	number := f.takenBy[i]
	if number < 0 {
		if f.dueS[i]+f.reach(i)+latestS < f.heardS {
			return NoteMark{Index: i, Verdict: Missed, Heard: -1}
		}
		return NoteMark{}
	}
	as, right := a.asWritten(i, number)
	m := NoteMark{
		Index: i, Verdict: Wrong, Heard: number,
		TimingMS: round(1000*(a.heard[number].OnsetS-f.dueS[i]), 1),
		Cents:    round(100*(as.midi-a.tuning-float64(f.notes[i].key)), 1),
	}
	if right {
		m.Verdict = Right
	}
	return m
}

// Heard returns the notes heard so far.
func (f *Follower) Heard() []Heard { return f.listener.Heard() }

// place finds the written note that a live one stands for. A right note takes
// the place of a wrong one; what is likely no note stands only where it is
// right, until a sure one comes.
func (f *Follower) place(a *aligner, n LiveNote) {
	if old, ok := f.standsAt[n.Number]; ok {
		f.takenBy[old] = -1
		delete(f.standsAt, n.Number)
	}
	if n.Confidence < probability(faintest) {
		return
	}
	doubt := n.Confidence < sure
	best, bestCost := -1, math.Inf(1)
	for i := range f.notes {
		cost := math.Abs(n.OnsetS-f.dueS[i]) / f.reach(i)
		if cost > 1 {
			continue
		}
		right := a.right(i, n.Number)
		if doubt && !right {
			continue
		}
		if taken := f.takenBy[i]; taken >= 0 && (!right || a.right(i, taken) && (doubt || a.heard[taken].Confidence >= sure)) {
			continue
		}
		if !right {
			cost += wrongCost
		}
		if cost < bestCost {
			best, bestCost = i, cost
		}
	}
	if best < 0 {
		return
	}
	if displaced := f.takenBy[best]; displaced >= 0 {
		delete(f.standsAt, displaced)
	}
	f.takenBy[best], f.standsAt[n.Number] = n.Number, best
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
