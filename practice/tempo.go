package practice

import (
	"math"

	"heddle/exercise"
)

// A Staircase is where the tempo of a unit has come to by the transformed
// up-down rule of Levitt (1971, table I, "two up, one down" turned round):
// two clean runs in a row raise the tempo, one that is not clean lowers it. It
// settles where p² = 1/2, so that 70.7 % of runs are clean.
type Staircase struct {
	Tempo     float64 // to play next; 0 before the first run
	InARow    int     // clean runs since the tempo last changed
	Rising    bool    // the last change was upwards
	Changes   int     // how often the tempo changed
	Reversals int     // how often a change was against the one before
	Fastest   float64 // the fastest clean run on record; 0 without one
}

// Steps as shares of the tempo: coarse until the second reversal, then fine.
// A unit begins at firstShare of its target, and no tempo is more than reach
// over the fastest clean run on record. Our choice.
const (
	coarseStep = 0.08
	fineStep   = 0.04
	fineAfter  = 2
	firstShare = 0.6
	reach      = 0.08
)

// FirstTempo is the tempo at which a unit with a target is first played.
func FirstTempo(target float64) float64 {
	return bounded(math.Round(target*firstShare), target)
}

// after returns the staircase after a run at a tempo. A clean run slower than
// the staircase's tempo, such as a warm-up, and a run faster than it that was
// not clean say nothing about that tempo and leave it.
func (s Staircase) after(tempo float64, went Went, target float64) Staircase {
	clean := went >= Clean
	if clean {
		s.Fastest = max(s.Fastest, tempo)
	}
	if s.Tempo > 0 && (clean && tempo < s.Tempo || !clean && tempo > s.Tempo) {
		return s
	}
	s.Tempo = tempo
	switch {
	case !clean:
		s = s.turned(false)
		s.Tempo -= s.step()
	case s.InARow == 0:
		s.InARow = 1
	default:
		s = s.turned(true)
		s.Tempo += s.step()
	}
	if s.Fastest > 0 {
		s.Tempo = min(s.Tempo, s.Fastest*(1+reach))
	}
	s.Tempo = bounded(s.Tempo, target)
	return s
}

// turned counts a change of the tempo.
func (s Staircase) turned(rising bool) Staircase {
	if s.Changes > 0 && rising != s.Rising {
		s.Reversals++
	}
	s.InARow, s.Rising = 0, rising
	s.Changes++
	return s
}

// step is the size of a change, at least 1.
func (s Staircase) step() float64 {
	share := coarseStep
	if s.Reversals >= fineAfter {
		share = fineStep
	}
	return max(1, math.Round(s.Tempo*share))
}

// bounded keeps a tempo between the slowest that there is and the target.
func bounded(tempo, target float64) float64 {
	return max(exercise.SlowestTempo, min(tempo, target))
}
