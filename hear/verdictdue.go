package hear

import (
	"math"

	"heddle/hear/internal/listen"
	"heddle/pitch"
)

// The last moment for a first verdict, after the second period of a note, and what
// is guessed when too little was heard by then: nearly all notes that are played to
// a click are those that are due, so a stroke without a clear pitch is taken for
// right until more is heard.
const (
	dueAfterS  = 0.048 // leaves 12 ms of 60 for a block and an onset that is placed late
	promptS    = 0.010 // by which players may be early
	unclear    = 2.0   // log odds below which a pitch may be any
	dueOdds    = 4.0   // as rivalOdds, for a note that is due and has only begun
	strokeFlux = 0.1   // of an attack that is surely a stroke
	strokeOffS = 0.080 // how far from where it is due a note that is hardly heard may be
)

// verdictDueS is when the verdict on written note i is due if it began at onsetS.
func (f *Follower) verdictDueS(i int, onsetS float64) float64 {
	return onsetS + 2/pitch.Frequency(float64(f.notes[i].key)) + dueAfterS
}

// mayBe reports whether heard note j, which has only begun, may become written
// note i.
func (f *Follower) mayBe(a *aligner, i, j int) bool {
	h := &a.heard[j]
	best := listen.LogOdds(h.Confidence)
	if best < unclear {
		return true
	}
	at := a.tuning + float64(f.notes[i].key)
	for _, r := range h.evidence.Rivals {
		if math.Abs(r.MIDI-at) <= 0.5 && r.LogOdds >= best-dueOdds {
			return true
		}
	}
	return false
}

// stroke is the stroke nearest to where written note i is due, if its verdict is
// due and its pitch is not clear yet, or −1.
func (f *Follower) stroke(a *aligner, i int) int {
	if f.heardS < f.verdictDueS(i, f.dueS[i]-promptS) {
		return -1
	}
	best, off := -1, min(strokeOffS, f.reach(i))
	for j := len(a.heard) - 1; j >= 0 && a.heard[j].OnsetS > f.dueS[i]-2*strokeOffS; j-- {
		h := &a.heard[j]
		d := math.Abs(h.OnsetS - f.dueS[i])
		if _, ok := f.matched[j]; ok || !h.evidence.Early || h.evidence.Flux < strokeFlux || d > off || f.heardS < f.verdictDueS(i, h.OnsetS) {
			continue
		}
		best, off = j, d
	}
	return best
}
