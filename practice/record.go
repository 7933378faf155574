package practice

import (
	"slices"
	"time"

	"heddle/exercise"
)

// A Record is everything of one player that the rules look at.
type Record struct {
	Items     []Item     // on the shelf, oldest first
	Standings []Standing // their units, in the order of each item's scope
	Moves     Tally
	Topics    []Topic // what was asked so far
	Days      []DayTotal
}

// A DayTotal is how long was practised on a day.
type DayTotal struct {
	Day     string  `json:"day"`
	Seconds float64 `json:"seconds"`
	Runs    int     `json:"runs"`
}

// item returns the item of an id.
func (r *Record) item(id int64) *Item {
	for i := range r.Items {
		if r.Items[i].ID == id {
			return &r.Items[i]
		}
	}
	return nil
}

// Due counts an item's units, and those of them that the memory model has due
// by the end of the day.
func (r *Record) Due(item int64, day time.Time) (units, due int) {
	until := endOf(day)
	for _, s := range r.Standings {
		if s.Item != item {
			continue
		}
		units++
		if s.Reps > 0 && !s.Due.After(until) {
			due++
		}
	}
	return units, due
}

// endOf is the end of a day in its own zone.
func endOf(day time.Time) time.Time {
	y, m, d := day.Date()
	return time.Date(y, m, d+1, 0, 0, 0, 0, day.Location())
}

// Exercises builds units to ask about: of one item, or of the whole shelf for 0,
// those played last first, and at most so many.
func (r *Record) Exercises(item int64, most int) ([]*exercise.Exercise, error) {
	standings := slices.Clone(r.Standings)
	slices.SortStableFunc(standings, func(a, b Standing) int { return b.Played.Compare(a.Played) })
	var list []*exercise.Exercise
	for _, s := range standings {
		it := r.item(s.Item)
		if it == nil || item != 0 && s.Item != item || len(list) == most {
			continue
		}
		spec, err := s.Spec(it.Spec)
		if err != nil {
			return nil, err
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			return nil, err
		}
		list = append(list, ex)
	}
	return list, nil
}

// UnitOf finds the unit whose line an exercise is: the same notes in the same
// places, at any tempo.
func (r *Record) UnitOf(ex *exercise.Exercise) (u Unit, found bool, err error) {
	key := ex.Scales[0].Root
	for _, s := range r.Standings {
		it := r.item(s.Item)
		if it == nil || (Unit{Key: s.Key}).class() != key.Class() {
			continue
		}
		spec, err := s.Spec(it.Spec)
		if err != nil {
			return u, false, err
		}
		other, err := exercise.Build(spec)
		if err != nil {
			return u, false, err
		}
		same := slices.EqualFunc(ex.Notes, other.Notes, func(a, b exercise.Note) bool {
			return a.Pitch.MIDI() == b.Pitch.MIDI() && a.Spot == b.Spot && a.Start == b.Start
		})
		if same {
			return s.Unit, true, nil
		}
	}
	return u, false, nil
}
