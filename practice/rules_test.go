package practice

import (
	"math"
	"testing"
	"time"

	"heddle/exercise"
)

// The FSRS model's published forgetting curve, R = (1 + F·t/S)^D with D = −0.5
// and F = 0.9^(1/D) − 1: 90 % after S days. Stability after the first trial is
// the rating's own weight; after go-fsrs's documentation, 3.173 days for the
// third rating (its default weights).
func TestMemoryFollowsThePublishedModel(t *testing.T) {
	m := Memory{}.After(thursday, Clean)
	if m.Stability != 3.173 || m.Reps != 1 || m.isYoung() != true {
		t.Errorf("%+v", m)
	}
	factor := math.Pow(0.9, -2) - 1
	for _, days := range []float64{0, 1, 3.173, 10, 100} {
		want := math.Pow(1+factor*days/3.173, -0.5)
		if got := m.Recall(thursday.Add(time.Duration(days * 24 * float64(time.Hour)))); math.Abs(got-want) > 1e-6 {
			t.Errorf("after %v days %v, want %v", days, got, want)
		}
	}
	if got := m.Recall(thursday.Add(time.Duration(3.173 * 24 * float64(time.Hour)))); math.Abs(got-0.9) > 1e-6 {
		t.Errorf("%v at its stability, want 0.9", got)
	}
	for went, better := FellApart, Shaky; better <= Relaxed; went, better = went+1, better+1 {
		if low, high := (Memory{}).After(thursday, went), (Memory{}).After(thursday, better); !high.Due.After(low.Due) {
			t.Errorf("%s is due on %v and %s on %v", went, low.Due, better, high.Due)
		}
	}
}

// A neighbour's run helps a unit that was played, and less than one of its own.
func TestNeighboursHelpWeakly(t *testing.T) {
	later := thursday.AddDate(0, 0, 3)
	m := Memory{}.After(thursday, Clean)
	helped, own := m.helped(later, Clean), m.After(later, Clean)
	if !(helped.Stability > m.Stability && helped.Stability < own.Stability) || helped.Last != m.Last {
		t.Errorf("%v, helped %v, own %v", m.Stability, helped.Stability, own.Stability)
	}
	if m.helped(later, Shaky) != m || (Memory{}).helped(later, Relaxed) != (Memory{}) {
		t.Error("helped by a shaky run, or something never played")
	}
	g := Unit{1, "G", 10}
	for u, want := range map[Unit]bool{{1, "Ab", 11}: true, {1, "Gb", 9}: true, {1, "G", 8}: true, {1, "G", 12}: true, {1, "G", 3}: false, {1, "C", 3}: false, {2, "Ab", 11}: false, {1, "G", 10}: false} {
		if g.neighbours(u) != want || u.neighbours(g) != want {
			t.Errorf("%v beside %v: want %v", u, g, want)
		}
	}
}

// The regularised incomplete beta function by its binomial sum for whole a and
// b (NIST Handbook of Mathematical Functions, 8.17.5).
func TestAboveIsABetaPosterior(t *testing.T) {
	binomial := func(a, b int, x float64) (sum float64) {
		n := a + b - 1
		for j := a; j <= n; j++ {
			lg := func(k int) float64 { v, _ := math.Lgamma(float64(k + 1)); return v }
			sum += math.Exp(lg(n)-lg(j)-lg(n-j)) * math.Pow(x, float64(j)) * math.Pow(1-x, float64(n-j))
		}
		return sum
	}
	for _, c := range []Count{{20, 4}, {50, 3}, {9, 9}} {
		want := 1 - binomial(1+c.Misses, 9+c.Tries-c.Misses, 0.1)
		if got := above(c, 0.1); math.Abs(got-want) > 1e-9 {
			t.Errorf("%+v: %v, want %v", c, got, want)
		}
	}
}

// Small counts do not pass, however they went; what fails like everything else
// does not pass either.
func TestWeakMovesAreTestedAgainstChance(t *testing.T) {
	tally := Tally{
		{Region, "5-8"}: {900, 60}, {Region, "9-12"}: {100, 40},
		{Fingers, "3-1"}: {1, 1}, {Fingers, "1-3"}: {200, 20}, {Join, "0-1"}: {60, 20}, {Spot, "1.10"}: {30, 30},
	}
	var words []string
	for _, w := range tally.weak() {
		words = append(words, w.words())
	}
	if len(words) != 2 || words[0] != "frets 9-12" || words[1] != "the step out of the home scale" {
		t.Errorf("%q", words)
	}
	if (Tally{}).weak() != nil || above(Count{}, 0.1) > 0.5 {
		t.Error("weak without a try")
	}
}

func TestALoopIsFourToEightNotesAroundTheMove(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10})
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for i, moves := range movesOf(ex) {
		for _, m := range moves {
			first, last, ok := loopAround(ex, m)
			if !ok {
				if i == 0 {
					continue // nothing leads to the first note
				}
				t.Fatalf("no loop around %s", m.words())
			}
			seen++
			if n := last - first + 1; n < 4 || n > 8 || first < 1 || last > len(ex.Notes) {
				t.Errorf("%s: notes %d to %d of %d", m.words(), first, last, len(ex.Notes))
			}
		}
	}
	if seen == 0 {
		t.Fatal("no moves")
	}
}

func TestMarksBecomeAWord(t *testing.T) {
	for _, c := range []struct {
		marks Marks
		want  Went
	}{
		{Marks{Right: 57, SpreadMS: 20}, Relaxed},
		{Marks{Right: 57, SpreadMS: 50}, Clean},
		{Marks{Right: 53, Missed: 4, SpreadMS: 20}, Clean},
		{Marks{Right: 45, Wrong: 6, Missed: 6, SpreadMS: 20}, Shaky},
		{Marks{Right: 57, Extra: 20, SpreadMS: 20}, Shaky},
		{Marks{Right: 57, SpreadMS: 150}, FellApart},
		{Marks{Right: 20, Missed: 37}, FellApart},
		{Marks{}, FellApart},
	} {
		if got := grade(c.marks, 375); got != c.want { // eighths at 80
			t.Errorf("%+v: %s, want %s", c.marks, got, c.want)
		}
	}
}

// Common practice: a pentatonic has five placements; twelve keys times five.
func TestScopesListTheirUnits(t *testing.T) {
	spec := exercise.Spec{Home: "A minor pentatonic", Fret: 5}
	for scope, want := range map[Scope]int{One: 1, Common: 5, Keys: 12, Places: 5, All: 60} {
		units, err := Units(spec, scope)
		if err != nil || len(units) != want || units[0].Key != "A" || units[0].Fret != 5 {
			t.Errorf("%s: %d units (%v), want %d; %v", scope, len(units), units, want, err)
		}
		for _, u := range units {
			moved, err := u.Spec(spec)
			if err != nil {
				t.Fatal(err)
			}
			if ex, err := exercise.Build(moved); err != nil || ex.Scales[0].Root.String() != u.Key {
				t.Errorf("%+v: %v", u, err)
			}
		}
	}
}
