package main

import (
	"slices"
	"time"

	"heddle/exercise"
	"heddle/pitch"
	"heddle/practice"
)

// A world is a learner, their shelf and their log.
type world struct {
	*learner
	record practice.Record
	at     time.Time
	played float64 // minutes in all
	left   float64 // minutes that were too few for another run
}

// target is the tempo to reach, and cleanAt the share of it at which a unit
// counts as clean at the end, if seven runs in ten are.
const (
	target   = 120
	cleanAt  = 0.8
	enough   = 0.7
	runTakes = 1.5 // minutes
)

// A shelf is what there is to practise.
type shelf struct {
	name  string
	scope practice.Scope
	homes []string
}

var shelves = []shelf{
	{"three lines in twelve keys, 36 units", practice.Keys, []string{"G minor pentatonic", "A blues", "C dorian"}},
	{"two lines in every key and place, 120 units", practice.All, []string{"G minor pentatonic", "A minor pentatonic"}},
}

func newWorld(seed uint64, of shelf) (*world, error) {
	w := &world{learner: newLearner(seed), at: time.Date(2026, 1, 1, 18, 0, 0, 0, time.UTC)}
	w.record.Moves = practice.Tally{}
	for i, home := range of.homes {
		item := practice.Item{ID: int64(i + 1), Title: home, Kind: practice.Line, Scope: of.scope, Target: target,
			Spec: exercise.Spec{Home: home, Superimpose: []string{"semitone up"}, Fret: 5, Tempo: target}}
		units, err := practice.Units(item.Spec, item.Scope)
		if err != nil {
			return nil, err
		}
		for j := range units {
			units[j].Item = item.ID
		}
		w.record.Items = append(w.record.Items, item)
		w.record.Standings = append(w.record.Standings, practice.Refold(units, nil, target)...)
	}
	return w, nil
}

// play plays a unit for some minutes, at the tempo of the staircase or slower.
func (w *world) play(u practice.Unit, minutes, slower float64, loop bool) {
	w.meet(u)
	for w.left += minutes; w.left >= runTakes; w.left -= runTakes {
		i := slices.IndexFunc(w.record.Standings, func(s practice.Standing) bool { return s.Unit == u })
		tempo := w.record.Standings[i].Next(target) * slower
		tempo = max(exercise.SlowestTempo, tempo)
		went := w.run(u, tempo, w.at, loop)
		run := practice.Run{Unit: u, At: w.at, Seconds: runTakes * 60, Tempo: tempo, Went: went}
		practice.Add(w.record.Standings, run, target)
		w.mark(u.Item)
	}
	w.pass(minutes, minutes)
}

// mark counts moves as a marked take would: fifty notes, eight of them the
// item's weak move.
func (w *world) mark(item int64) {
	count := func(m practice.Move, tries int, chance float64) {
		c := w.record.Moves[m]
		c.Tries += tries
		for range tries {
			if w.dice.Float64() < chance {
				c.Misses++
			}
		}
		w.record.Moves[m] = c
	}
	count(practice.Move{Kind: practice.Region, Value: "5-8"}, 50, 0.04)
	count([]practice.Move{{Kind: practice.Join, Value: "0-1"}, {Kind: practice.Join, Value: "1-0"}, {Kind: practice.Degree, Value: "b3"}}[item-1], 8, w.trips[item])
}

func (w *world) pass(minutes, tiring float64) {
	w.at = w.at.Add(time.Duration(minutes * float64(time.Minute)))
	w.tired = max(0, w.tired+tiring)
	w.played += max(0, tiring)
}

func (w *world) rest(minutes float64) { w.pass(minutes, -5*minutes) }

// rested plays turns of some minutes each. Beside them it does what the plan
// does: it warms up slowly for two minutes, takes five minutes of rest after at
// most 25 in a session of more than 50, and leaves two minutes for questions in
// one of 25 or more, so that only the choice of units and the turns differ.
func (w *world) rested(minutes, turn int, next func(i int) practice.Unit) {
	const warmUp = 2
	w.play(next(0), warmUp, 0.7, false)
	left, since := minutes-warmUp, warmUp
	if minutes >= 25 {
		left -= 2
	}
	for i := 1; left > 0; i++ {
		if minutes > 50 && since+turn > 25 {
			w.rest(5)
			left, since = left-5, 0
		}
		play := max(0, min(turn, left))
		w.play(next(i), float64(play), 1, false)
		left, since = left-play, since+play
	}
}

// ways are the ways to practise that are compared.
var ways = []struct {
	name    string
	session func(w *world, day, minutes int) error
}{
	{"the plan", byPlan}, {"one unit after the other, 12 minutes each", inBlocks}, {"any unit, 3 minutes each", atRandom}, {"in the order in which they are due, 3 minutes each", inDueOrder},
}

func byPlan(w *world, day, minutes int) error {
	plan, err := practice.Today(&w.record, practice.Asked{Day: w.at, Minutes: minutes, Seed: uint64(day)})
	if err != nil {
		return err
	}
	for _, b := range plan.Blocks {
		u, ok := b.Unit()
		switch {
		case b.Kind == practice.Rest:
			w.rest(float64(b.Minutes))
		case !ok:
			w.pass(float64(b.Minutes), 0)
		case b.Kind == practice.WarmUp:
			w.play(u, float64(b.Minutes), 0.7, false)
		default:
			w.play(u, float64(b.Minutes), 1, b.Kind == practice.WeakOne)
		}
	}
	return nil
}

func inBlocks(w *world, day, minutes int) error {
	const turn = 12
	first := day * ((minutes + turn - 1) / turn)
	w.rested(minutes, turn, func(i int) practice.Unit {
		return w.record.Standings[(first+i)%len(w.record.Standings)].Unit
	})
	return nil
}

func atRandom(w *world, _, minutes int) error {
	w.rested(minutes, 3, func(int) practice.Unit {
		return w.record.Standings[w.dice.IntN(len(w.record.Standings))].Unit
	})
	return nil
}

// inDueOrder plays what is due, longest overdue first, then what is new.
func inDueOrder(w *world, _, minutes int) error {
	order := slices.Clone(w.record.Standings)
	slices.SortStableFunc(order, func(a, b practice.Standing) int {
		if (a.Reps == 0) != (b.Reps == 0) {
			return b.Reps - a.Reps // what was played comes first
		}
		return a.Due.Compare(b.Due)
	})
	due := slices.DeleteFunc(order, func(s practice.Standing) bool { return s.Reps > 0 && s.Due.After(w.at.Add(6*time.Hour)) })
	if len(due) == 0 {
		due = w.record.Standings
	}
	w.rested(minutes, 3, func(i int) practice.Unit { return due[i%len(due)].Unit })
	return nil
}

// A result is what a learner has come to on the morning after the last day.
type result struct{ clean, keys, untouched, minutes float64 }

func practise(session func(*world, int, int) error, of shelf, minutes, days int, seed uint64) (result, error) {
	w, err := newWorld(seed, of)
	if err != nil {
		return result{}, err
	}
	begin := w.at
	for day := range days {
		w.at = begin.AddDate(0, 0, day)
		w.tired = 0
		clear(w.today)
		if err := session(w, day, minutes); err != nil {
			return result{}, err
		}
	}
	w.at, w.tired = begin.AddDate(0, 0, days), 0
	r := result{minutes: w.played}
	keys := map[int]bool{}
	for _, s := range w.record.Standings {
		w.meet(s.Unit)
		if s.Runs == 0 {
			r.untouched++
		}
		if w.chance(s.Unit, cleanAt*target, w.at) >= enough {
			r.clean++
			if key, err := pitch.ParseName(s.Key); err == nil {
				keys[key.Class()] = true
			}
		}
	}
	r.keys = float64(len(keys))
	return r, nil
}
