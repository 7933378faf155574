package hear

import (
	"fmt"
	"math"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/spectral"
	"heddle/pitch"
)

// A Follower marks a take while it is played to a click. A verdict is given again
// when it changes, and the last one counts. [Mark], after the take, knows more:
// restarts, doubts, and how loud the whole take is. A Follower keeps a second of
// sound.
type Follower struct {
	resampler *audio.Resampler
	block     []float32
	listener  *listen.Listener
	rate, fed int
	heardS    float64

	notes   []written
	dueS    []float64   // when each written note should sound
	given   []NoteMark  // the last mark of each written note, without a verdict before the first
	takenBy []int       // heard note that is matched with each written note, −1 for none
	matched map[int]int // written note by heard note
	heard   []Heard     // as of the last news
	placed  []belief    // of each heard note, when it was placed last
	settled int         // heard notes that will not be revised any more
}

// A belief is what was believed of a heard note.
type belief struct{ midi, confidence float64 }

// displacing is the confidence from which what is likely no note is taken for a
// written one whose place a sure note has or claims with a wrong pitch: below it,
// by the costs of an alignment, the wrong note stays.
const displacing = 0.25

// settledS is how long after its onset a note is no longer revised.
const settledS = 0.5

// latestS is how long after its time, besides half the time to the next note, a
// note may still be heard before it is called missed. It covers the wait for a live
// verdict on a low note.
const latestS = 0.15

// NewFollower follows an exercise played to a click at its tempo whose first bar
// line falls clickS after the first sample fed. A rate that no recorder has is a [*pitch.InputError].
func NewFollower(rate int, ex *exercise.Exercise, clickS float64) (*Follower, error) {
	if rate < audio.LowestHz || rate > audio.HighestHz {
		return nil, &pitch.InputError{What: "sample rate", Value: fmt.Sprintf("%d Hz", rate), Want: "8000 to 192000 Hz"}
	}
	opts := listening(ex)
	opts.Live = true
	f := &Follower{
		resampler: audio.NewResampler(rate, spectral.Rate), listener: listen.NewListener(opts), rate: rate,
		notes: writtenNotes(ex), matched: map[int]int{},
	}
	f.given = make([]NoteMark, len(f.notes))
	click := beat{startS: clickS, quarterS: 60 / ex.Tempo}
	for _, n := range f.notes {
		f.dueS = append(f.dueS, click.at(n.quarters))
		f.takenBy = append(f.takenBy, -1)
	}
	return f, nil
}

// Feed takes the next samples, in blocks of any length, and returns the verdicts
// that they bring.
func (f *Follower) Feed(x []float32) []NoteMark {
	f.fed += len(x)
	f.heardS = float64(f.fed) / float64(f.rate)
	f.block = f.resampler.Feed(f.block[:0], x)
	f.listener.Feed(f.block)
	return f.news()
}

// Finish returns the verdicts that the end of the take brings. After it every
// written note has one, and nothing may be fed.
func (f *Follower) Finish() []NoteMark {
	f.heardS = math.Inf(1)
	f.listener.Feed(f.resampler.Flush(f.block[:0]))
	f.listener.Finish()
	return f.news()
}

// news places what was heard and returns the marks that are new or have changed.
func (f *Follower) news() []NoteMark {
	f.heard = f.heard[:f.settled]
	for _, n := range f.listener.Notes()[f.settled:] {
		f.heard = append(f.heard, heardNote(n))
	}
	a := aligner{written: f.notes, heard: f.heard, tuning: f.listener.TuningCents() / 100}
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

// mark is the present mark of a written note. It has no verdict while the note may
// still come, or while more will be heard of it before its verdict is due.
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
	h := &a.heard[number]
	switch {
	case a.right(i, number):
		return f.marked(a, i, number, Right)
	case f.heardS < f.verdictDueS(i, max(h.OnsetS, f.dueS[i])):
		return NoteMark{}
	case h.evidence.Early && f.mayBe(a, i, number):
		return f.marked(a, i, number, Right)
	}
	return f.marked(a, i, number, Wrong)
}

func (f *Follower) marked(a *aligner, i, number int, v Verdict) NoteMark {
	as, _ := a.asWritten(i, number)
	return NoteMark{
		Index: i, Verdict: v, Heard: number,
		TimingMS: round(1000*(a.heard[number].OnsetS-f.dueS[i]), 1),
		Cents:    round(100*(as.MIDI-a.tuning-float64(f.notes[i].key)), 1),
	}
}

// placeAll places the notes that are new or were revised.
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

// release frees the place of heard note j, if it has one, and lets the notes
// without a place be placed again.
func (f *Follower) release(j int) {
	i, ok := f.matched[j]
	if !ok {
		return
	}
	f.takenBy[i] = -1
	delete(f.matched, j)
	for k := f.settled; k < len(f.placed); k++ {
		if _, ok := f.matched[k]; !ok {
			f.placed[k] = belief{}
		}
	}
}

// place finds the written note that heard note j was played for. A right note takes
// the place of a wrong one; what is likely no note has a place only where it is
// right, until a sure one comes.
func (f *Follower) place(a *aligner, j int) {
	f.release(j)
	h := &a.heard[j]
	if h.Confidence < listen.Probability(listen.FaintestLive) {
		return
	}
	doubt, faint := h.Confidence < listen.Sure, h.Confidence < displacing
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
		delete(f.matched, displaced)
	}
	f.takenBy[best], f.matched[j] = j, best
}

// keepsPlace reports whether the note that has the place of written note i keeps it
// when heard note j claims it.
func keepsPlace(a *aligner, i, taken, j int) bool {
	there, comes := a.heard[taken].Confidence, a.heard[j].Confidence
	switch {
	case there < displacing && comes >= listen.Sure:
		return false
	case !a.right(i, j), comes < displacing && there >= listen.Sure:
		return true
	}
	return a.right(i, taken) && (comes < listen.Sure || there >= listen.Sure)
}

// reach is how far in time a note may be played from where it is due: half way to
// its neighbours and a little over.
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
