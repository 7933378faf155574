// Package store keeps what a player makes and does: the shelf, the log, answers
// and plans. [Store] says what any implementation promises; [SQLite] is the one
// for a data folder.
package store

import (
	"context"
	"errors"
	"time"

	"heddle/neck"
	"heddle/practice"
)

// A Store keeps the shelf and the log of one player, the owner of all its rows;
// no call reads or changes another owner's. What a call has returned without an
// error is on the disk. A call that fails has changed nothing. Calls may come
// from several goroutines and several processes.
//
// Something that does not exist is [ErrNone]; what can't be kept because of its
// content is a *pitch.InputError.
type Store interface {
	// Keep puts an item on the shelf and works out its units. It returns the
	// item with its ids. An item whose UID is on the shelf already, or was
	// dropped, is returned as it is there, and kept is false.
	Keep(ctx context.Context, item practice.Item) (is practice.Item, kept bool, err error)
	// Items lists the shelf, oldest first; with dropped, also what was dropped.
	Items(ctx context.Context, dropped bool) ([]practice.Item, error)
	Item(ctx context.Context, id int64) (practice.Item, error)
	// Find lists the items on the shelf in whose title, tags and note every word
	// is the beginning of a word, the best matches first.
	Find(ctx context.Context, words string) ([]practice.Item, error)
	// Change sets title, tags, note, scope and target.
	Change(ctx context.Context, item practice.Item) error
	// Drop takes an item off the shelf. Its runs stay in the log.
	Drop(ctx context.Context, id int64, at time.Time) error
	Restore(ctx context.Context, id int64) error

	// Add adds runs, all or none, and returns their ids. A run whose UID is in
	// the log already is not added again and returned with its id there. A unit
	// outside the item's scope is added to the item.
	Add(ctx context.Context, runs ...practice.Run) ([]int64, error)
	// Strike takes a run out of every sum. It stays in the log.
	Strike(ctx context.Context, run int64) error
	// Runs lists runs, newest first.
	Runs(ctx context.Context, which Which) ([]practice.Run, error)

	// Record gathers what the rules of practice look at.
	Record(ctx context.Context) (*practice.Record, error)

	// Answer keeps an answer to a question.
	Answer(ctx context.Context, a Answer) error
	// Asked sums the answers up by kind and spot.
	Asked(ctx context.Context) ([]practice.SpotTotal, error)

	// Begin keeps the plan of a day and how many of its blocks are done.
	Begin(ctx context.Context, plan *practice.Plan, done int) error
	// Begun returns the plan that was begun on a day, or ErrNone.
	Begun(ctx context.Context, day string) (plan *practice.Plan, done int, err error)
}

// ErrNone says that there is no such thing on the shelf or in the log.
var ErrNone = errors.New("there is no such thing")

// Which says which runs are listed. The zero Which is all.
type Which struct {
	Item  int64 // 0 for all
	Most  int   // 0 for all
	Marks bool  // with the marks of each note
}

// An Answer is an answer to a question.
type Answer struct {
	Topic   practice.Topic // only kind, scales and region are read
	Spot    neck.Spot
	At      time.Time
	Right   bool
	Seconds float64
	Within  float64 // seconds in which a right answer is known
}

// Player is the owner of everything in a data folder that one player uses.
const Player = "me"
