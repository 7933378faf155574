package hear

import (
	"math"

	"heddle/exercise"
)

// A Follower marks a take while it is played to a click. Its verdicts come
// as soon as a note is heard; where too little was heard to tell some 50 ms
// after its second period, the likeliest is given, for mostly what is played is
// what the click says is due. A verdict is given again when a surer note takes
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
	placed   []belief    // of each live note, when it was placed last
	settled  int         // live notes that will not be heard better
	heardS   float64
	fed      int
	rate     int
}

// A belief is what was held of a live note.
type belief struct {
	midi, confidence float64
}

// displacing is the confidence from which what is likely no note is taken for
// a written one whose place a sure note has or claims with a wrong pitch: below
// it, by the costs of an alignment, the wrong note stands.
const displacing = 0.25

// settledS is how long after its onset a note is no longer heard better.
const settledS = 0.5

// latestS is how long after its time, besides half the time to the next
// note, a note may still be heard before it is called missed; it covers the
// wait for a live verdict on a low note.
const latestS = 0.15

// NewFollower follows an exercise played to a click at its tempo whose first
// bar line falls clickS after the first sample fed.
func NewFollower(rate int, ex *exercise.Exercise, clickS float64) (*Follower, error) {
	l, err := NewListener(rate, OptionsFor(ex))
	if err != nil {
		return nil, err
	}
	f := &Follower{listener: l, notes: writtenNotes(ex), rate: rate, standsAt: map[int]int{}}
	f.given = make([]NoteMark, len(f.notes))
	click := pulse{startS: clickS, quarterS: 60 / ex.Tempo}
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
	f.listener.Feed(x)
	return f.news()
}

// Finish returns the verdicts that the end of the take brings. After it every
// written note has one; nothing may be fed any more.
func (f *Follower) Finish() []NoteMark {
	f.heardS = math.Inf(1)
	f.listener.Finish()
	return f.news()
}

// news places what was heard and returns the marks that are new or have
// changed.
func (f *Follower) news() []NoteMark {
	a := aligner{written: f.notes, heard: f.listener.transcript.reading.notes, tuning: float64(f.listener.Tuning()) / 100}
	f.placeAll(&a)
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
// the note may still come, or while more will be heard of what came before its
// verdict is due.
func (f *Follower) mark(a *aligner, i int) NoteMark {
	number := f.takenBy[i]
	if number < 0 {
		if stroke := f.stroke(a, i); stroke >= 0 {
			return f.marked(a, i, stroke, Right)
		}
		if f.dueS[i]+f.reach(i)+latestS < f.heardS {
			return NoteMark{Index: i, Verdict: Missed, Heard: -1}
		}
		return NoteMark{}
	}
	if a.right(i, number) {
		return f.marked(a, i, number, Right)
	}
	h := &a.heard[number]
	if f.heardS < f.verdictDueS(i, max(h.OnsetS, f.dueS[i])) {
		return NoteMark{}
	}
	if h.early && f.mayBe(a, i, number) {
		return f.marked(a, i, number, Right)
	}
	return f.marked(a, i, number, Wrong)
}

func (f *Follower) marked(a *aligner, i, number int, v Verdict) NoteMark {
	as, _ := a.asWritten(i, number)
	return NoteMark{
		Index: i, Verdict: v, Heard: number,
		TimingMS: round(1000*(a.heard[number].OnsetS-f.dueS[i]), 1),
		Cents:    round(100*(as.midi-a.tuning-float64(f.notes[i].key)), 1),
	}
}

// placeAll places the notes that are new or were heard better.
func (f *Follower) placeAll(a *aligner) {
	for j := f.settled; j < len(a.heard); j++ {
		h := &a.heard[j]
		if j == len(f.placed) {
			f.placed = append(f.placed, belief{})
		}
		if b := (belief{h.MIDI, h.Confidence}); b != f.placed[j] {
			f.placed[j] = b
			f.place(a, j)
		}
	}
	for f.settled < len(a.heard) && a.heard[f.settled].OnsetS+settledS < f.heardS {
		f.settled++
	}
}

// release lets the notes that stand for none be placed again, for a place is
// free.
func (f *Follower) release() {
	for j := f.settled; j < len(f.placed); j++ {
		if _, stands := f.standsAt[j]; !stands {
			f.placed[j] = belief{}
		}
	}
}

// place finds the written note that heard note j stands for. A right note takes
// the place of a wrong one; what is likely no note stands only where it is
// right, until a sure one comes.
func (f *Follower) place(a *aligner, j int) {
	if old, ok := f.standsAt[j]; ok {
		f.takenBy[old] = -1
		delete(f.standsAt, j)
		f.release()
	}
	h := &a.heard[j]
	if h.Confidence < probability(faintest) {
		return
	}
	doubt, faint := h.Confidence < sure, h.Confidence < displacing
	best, bestCost := -1, math.Inf(1)
	for i := range f.notes {
		offS := math.Abs(h.OnsetS - f.dueS[i])
		cost := offS / f.reach(i)
		if cost > 1 || faint && offS > strokeOffS {
			continue
		}
		right := a.right(i, j)
		if doubt && !right {
			continue
		}
		if taken := f.takenBy[i]; taken >= 0 && keepsPlace(a, i, taken, j) {
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
	f.takenBy[best], f.standsAt[j] = j, best
}

// keepsPlace reports whether the note that stands for written note i stays when
// heard note j comes for it.
func keepsPlace(a *aligner, i, taken, j int) bool {
	there, comes := a.heard[taken].Confidence, a.heard[j].Confidence
	switch {
	case there < displacing && comes >= sure:
		return false
	case !a.right(i, j), comes < displacing && there >= sure:
		return true
	}
	return a.right(i, taken) && (comes < sure || there >= sure)
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
