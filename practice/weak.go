package practice

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/mathext"

	"heddle/exercise"
)

// A weakness is a move that fails more often than the player's own average.
type weakness struct {
	Move
	Count
	Sure float64 // the probability that its error rate is above average
}

// How a weak move is distinguished from chance: its error rate has a Beta posterior on a
// prior that is worth priorNotes notes at the player's own average, and the
// probability that the rate is above that average must be over sureEnough. Our
// choice of both.
const (
	priorNotes = 10
	sureEnough = 0.9
)

// average is the error rate over all moves of one kind that every note has.
func (t Tally) average() float64 {
	var all Count
	for move, c := range t {
		if move.Kind == Region {
			all.Tries += c.Tries
			all.Misses += c.Misses
		}
	}
	if all.Tries == 0 {
		return 0
	}
	return float64(all.Misses) / float64(all.Tries)
}

// weak lists the moves that fail more often than the player's average, the
// surest first. Spots are left to the picture of the neck.
func (t Tally) weak() []weakness {
	average := t.average()
	if average == 0 {
		return nil
	}
	var list []weakness
	for move, c := range t {
		if move.Kind == Spot {
			continue
		}
		if sure := above(c, average); sure > sureEnough {
			list = append(list, weakness{move, c, sure})
		}
	}
	slices.SortFunc(list, func(a, b weakness) int {
		return cmp.Or(cmp.Compare(b.Sure, a.Sure), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Value, b.Value))
	})
	return list
}

// above is the probability that the error rate behind a count is over the
// average: 1 − I(average; a, b), the regularised incomplete beta function.
func above(c Count, average float64) float64 {
	a := priorNotes*average + float64(c.Misses)
	b := priorNotes*(1-average) + float64(c.Tries-c.Misses)
	if a <= 0 || b <= 0 || average >= 1 {
		return 0
	}
	return 1 - mathext.RegIncBeta(a, b, average)
}

// Lengths of a loop in notes.
const (
	shortestLoop = 4
	longestLoop  = 8
)

// loopAround returns the first and last note, counted from 1, of a loop around
// the first such move of the exercise: from the group before the note to the end
// of its own group, held to four to eight notes.
func loopAround(ex *exercise.Exercise, move Move) (first, last int, ok bool) {
	if len(ex.Notes) < shortestLoop {
		return 0, 0, false
	}
	at := -1
	for i, moves := range movesOf(ex) {
		if i > 0 && slices.Contains(moves, move) {
			at = i
			break
		}
	}
	if at < 0 {
		return 0, 0, false
	}
	first, last = at, at
	for first > 0 && ex.Notes[first-1].Group >= ex.Notes[at].Group-1 && at-first < longestLoop/2 {
		first--
	}
	for last+1 < len(ex.Notes) && ex.Notes[last+1].Group == ex.Notes[at].Group && last-first+1 < longestLoop {
		last++
	}
	for last-first+1 < shortestLoop {
		if last+1 < len(ex.Notes) {
			last++
		} else {
			first--
		}
	}
	return first + 1, last + 1, true
}
