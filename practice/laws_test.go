package practice

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"heddle/exercise"
)

var thursday = time.Date(2026, 11, 26, 19, 0, 0, 0, time.FixedZone("CET", 3600))

// drawRecord draws a shelf and what was played from it.
func drawRecord(t *rapid.T) *Record {
	r := &Record{Moves: Tally{}}
	for i := range rapid.IntRange(0, 4).Draw(t, "items") {
		item := Item{ID: int64(i + 1), Title: fmt.Sprintf("line %d", i+1), Kind: rapid.SampledFrom([]Kind{Line, Cell, Phrase}).Draw(t, "kind"),
			Spec: exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 100}, Target: 100}
		r.Items = append(r.Items, item)
		units := []Unit{{item.ID, "G", 10}, {item.ID, "A", 12}, {item.ID, "C", 3}, {item.ID, "D", 5}}
		var runs []Run
		at := thursday.AddDate(0, 0, -30)
		for range rapid.IntRange(0, 12).Draw(t, "runs") {
			at = at.Add(time.Duration(rapid.IntRange(1, 48).Draw(t, "hours")) * time.Hour)
			runs = append(runs, Run{Unit: rapid.SampledFrom(units).Draw(t, "unit"), At: at, Seconds: 60, Tempo: 60, Went: Went(rapid.IntRange(1, 4).Draw(t, "went"))})
		}
		r.Standings = append(r.Standings, Refold(units, runs, item.Target)...)
	}
	if rapid.Bool().Draw(t, "weak") {
		r.Moves[Move{Region, "9-12"}] = Count{200, 20}
		r.Moves[Move{Join, "0-1"}] = Count{40, 15}
	}
	return r
}

func TestAPlanFitsItsMinutesAndIsTheSameAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		asked := Asked{Day: thursday, Minutes: rapid.IntRange(shortestPlan, longestPlan).Draw(t, "minutes"), Seed: rapid.Uint64().Draw(t, "seed"), NoGuitar: rapid.Bool().Draw(t, "no guitar")}
		plan, err := Today(r, asked)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Today(r, asked)
		if err != nil {
			t.Fatal(err)
		}
		one, _ := json.Marshal(plan)
		two, _ := json.Marshal(again)
		if string(one) != string(two) {
			t.Fatalf("two plans: %s and %s", one, two)
		}
		if len(r.Items) == 0 {
			if len(plan.Blocks) != 0 {
				t.Fatal("a plan from an empty shelf")
			}
			return
		}
		sum, fresh := 0, map[Unit]bool{}
		for i, b := range plan.Blocks {
			sum += b.Minutes
			if b.Why == "" || b.Minutes < 1 {
				t.Fatalf("block %d: %+v", i, b)
			}
			if u, ok := b.Unit(); ok && b.Kind == New {
				fresh[u] = true
			}
			if b.Spec == nil && b.Kind != Rest && b.Kind != Quiz {
				t.Fatalf("block %d has no spec", i)
			}
			if b.Item != 0 && b.Tempo > r.item(b.Item).Target {
				t.Fatalf("block %d is over its target: %v", i, b.Tempo)
			}
		}
		if sum != asked.Minutes {
			t.Fatalf("%d minutes planned for %d: %s", sum, asked.Minutes, one)
		}
		young := 0
		for _, s := range r.Standings {
			if s.isYoung() {
				young++
			}
		}
		if young > 0 && len(fresh) > max(0, asked.Minutes*youngPerHour/60-young) {
			t.Fatalf("%d new units beside %d young ones", len(fresh), young)
		}
	})
}

// Ten minutes of rest in each hour: no window of an hour within the plan, or
// at its edges, holds more than 50 minutes of playing.
func TestEveryHourHoldsTenMinutesOfRest(t *testing.T) {
	r := &Record{Items: []Item{{ID: 1, Title: "a", Spec: exercise.Spec{Home: "A blues", Tempo: 80}, Target: 80}}}
	for fret := 1; fret < 9; fret++ {
		r.Standings = append(r.Standings, Standing{Unit: Unit{1, "A", fret}})
	}
	for minutes := shortestPlan; minutes <= longestPlan; minutes++ {
		plan, err := Today(r, Asked{Day: thursday, Minutes: minutes})
		if err != nil {
			t.Fatal(err)
		}
		var playing []int
		for _, b := range plan.Blocks {
			for range b.Minutes {
				at := 1
				if b.Kind == Rest {
					at = 0
				}
				playing = append(playing, at)
			}
		}
		if len(playing) != minutes || plan.Blocks[len(plan.Blocks)-1].Kind == Rest {
			t.Errorf("%d minutes: %d planned, the last a %s", minutes, len(playing), plan.Blocks[len(plan.Blocks)-1].Kind)
		}
		for from := range playing {
			sum := 0
			for _, at := range playing[from:min(from+60, len(playing))] {
				sum += at
			}
			if sum > 50 {
				t.Errorf("%d minutes: %d minutes of playing in the hour from minute %d", minutes, sum, from)
				break
			}
		}
	}
}

// Units are taken in turn: no unit twice in a row where there are two.
func TestUnitsAreInterleaved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		plan, err := Today(r, Asked{Day: thursday, Minutes: rapid.IntRange(10, 50).Draw(t, "minutes")})
		if err != nil {
			t.Fatal(err)
		}
		units := map[string]bool{}
		var turns []string
		for _, b := range plan.Blocks {
			if b.Kind == Due || b.Kind == New || b.Kind == WeakOne {
				name := fmt.Sprint(b.Item, b.Key, b.Fret, b.Spec.Cut)
				units[name] = true
				turns = append(turns, name)
			}
		}
		for i := 1; i < len(turns); i++ {
			if len(units) > 1 && turns[i] == turns[i-1] {
				t.Fatalf("twice in a row: %v", turns)
			}
		}
	})
}

func TestTheStaircaseKeepsToItsBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		target := float64(rapid.IntRange(exercise.SlowestTempo, exercise.FastestTempo).Draw(t, "target"))
		var s Staircase
		tempo := FirstTempo(target)
		for range 60 {
			went := Went(rapid.IntRange(1, 4).Draw(t, "went"))
			before := s
			s = s.after(tempo, went, target)
			switch {
			case s.Tempo > target || s.Tempo < exercise.SlowestTempo:
				t.Fatalf("%v is outside of %d to %v", s.Tempo, exercise.SlowestTempo, target)
			case s.Fastest > 0 && s.Tempo > s.Fastest*1.08+1e-9:
				t.Fatalf("%v is too far over the fastest clean run, %v", s.Tempo, s.Fastest)
			case went < Clean && s.Tempo > tempo:
				t.Fatalf("a run that was not clean raised %v to %v", tempo, s.Tempo)
			case s.Tempo > tempo && before.InARow != 1:
				t.Fatalf("one clean run raised %v to %v", tempo, s.Tempo)
			}
			tempo = s.Tempo
		}
	})
}

// Levitt (1971): the rule settles where p² = ½, at 70.7 % of runs clean. A
// learner's chance of a clean run falls with the tempo as a logistic curve does.
func TestTheStaircaseSettlesAtSeventyOnePercent(t *testing.T) {
	var s Staircase
	tempo, clean, runs := 60.0, 0, 0
	dice := lcg(7)
	for i := range 40_000 {
		chance := 1 / (1 + math.Exp((tempo-150)/8))
		went := Shaky
		if dice() < chance {
			went = Clean
		}
		if i > 500 {
			runs++
			if went == Clean {
				clean++
			}
		}
		s = s.after(tempo, went, 400)
		tempo = s.Tempo
	}
	if share := float64(clean) / float64(runs); math.Abs(share-math.Sqrt(0.5)) > 0.02 {
		t.Errorf("%.3f of the runs are clean, want 0.707", share)
	}
}

// lcg is a small generator (Numerical Recipes, ranqd1), so that the test does not depend on another's.
func lcg(seed uint32) func() float64 {
	return func() float64 {
		seed = seed*1664525 + 1013904223
		return float64(seed) / (1 << 32)
	}
}

// One run after the other gives what all together give.
func TestStandingsCanBeWorkedOutAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := []Unit{{1, "G", 10}, {1, "Ab", 11}, {1, "G", 8}, {1, "D", 5}}
		var runs []Run
		at := thursday
		live := Refold(units, nil, 120)
		for range rapid.IntRange(1, 30).Draw(t, "runs") {
			at = at.Add(time.Duration(rapid.IntRange(0, 200).Draw(t, "hours")) * time.Hour)
			r := Run{Unit: rapid.SampledFrom(units).Draw(t, "unit"), At: at, Seconds: 100, Tempo: 80, Went: Went(rapid.IntRange(1, 4).Draw(t, "went"))}
			runs = append(runs, r)
			Add(live, r, 120)
		}
		again := Refold(units, runs, 120)
		for i := range live {
			if live[i] != again[i] {
				t.Fatalf("%+v and %+v", live[i], again[i])
			}
			if s := live[i]; s.Reps > 0 && s.Due.Before(s.Last) {
				t.Fatalf("due before it was played: %+v", s)
			}
		}
	})
}
