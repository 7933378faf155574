package practice

import (
	"time"

	fsrs "github.com/open-spaced-repetition/go-fsrs/v3"
)

// A Memory is how well something is remembered by the FSRS model (go-fsrs
// v3.3.1 with its default parameters, which were fitted on flash cards). The
// zero Memory is of something never tried.
type Memory struct {
	Stability  float64 // days until recall is down to 90 %
	Difficulty float64 // 1 to 10
	Reps       int
	Lapses     int
	Last       time.Time // the last trial
	Due        time.Time
}

// retention is the chance of recall at which something is due again.
const retention = 0.9

// young is the stability in days below which a unit counts as young. Our
// choice: what is not yet safe for a week.
const young = 7

// model returns the scheduler. It plans in whole days: several runs on one day
// count little more than one.
func model() *fsrs.FSRS {
	p := fsrs.DefaultParam()
	p.RequestRetention = retention
	p.EnableShortTerm = false
	return fsrs.NewFSRS(p)
}

// ratings maps how a run went to the model's four ratings.
var ratings = map[Went]fsrs.Rating{FellApart: fsrs.Again, Shaky: fsrs.Hard, Clean: fsrs.Good, Relaxed: fsrs.Easy}

// After returns the memory after a trial. One that is earlier than the last
// counts as on the same day.
func (m Memory) After(at time.Time, went Went) Memory {
	if at.Before(m.Last) {
		at = m.Last
	}
	card := model().Next(m.card(), at.UTC(), ratings[went]).Card
	return Memory{Stability: card.Stability, Difficulty: card.Difficulty, Reps: int(card.Reps), Lapses: int(card.Lapses), Last: at.UTC(), Due: card.Due.UTC()}
}

func (m Memory) card() fsrs.Card {
	if m.Reps == 0 {
		return fsrs.NewCard()
	}
	return fsrs.Card{
		Due: m.Due, Stability: m.Stability, Difficulty: m.Difficulty, Reps: uint64(m.Reps), Lapses: uint64(m.Lapses),
		State: fsrs.Review, LastReview: m.Last,
	}
}

// Recall is the chance that it is remembered at a time, 0 if never tried.
func (m Memory) Recall(at time.Time) float64 {
	if m.Reps == 0 {
		return 0
	}
	if at.Before(m.Last) {
		at = m.Last
	}
	return model().GetRetrievability(m.card(), at)
}

// sharedWithNeighbours is how much a neighbour gains by a run, as a share of
// what a run of its own would have added to its stability. Our assumption.
const sharedWithNeighbours = 0.15

// helped returns the memory after a run of a neighbour. Only a run that went at
// least clean helps, and only a unit that has been played.
func (m Memory) helped(at time.Time, went Went) Memory {
	if m.Reps == 0 || went < Clean {
		return m
	}
	own := m.After(at, went)
	if own.Stability <= m.Stability {
		return m
	}
	m.Stability += sharedWithNeighbours * (own.Stability - m.Stability)
	days := max(1, m.Stability) // at a retention of 0.9 the interval is the stability
	if due := m.Last.Add(time.Duration(days * 24 * float64(time.Hour))).Truncate(time.Millisecond); due.After(m.Due) {
		m.Due = due
	}
	return m
}

// isYoung reports whether something is being learned: tried, but not yet safe for
// a week.
func (m Memory) isYoung() bool { return m.Reps > 0 && m.Stability < young }
