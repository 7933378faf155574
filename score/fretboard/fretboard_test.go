package fretboard

import (
	"math"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/internal/examples"
	"heddle/score/surface"
)

// The rule of the eighteenth: each fret takes off 1/17.817 of what is left
// (equal temperament; a handbook rule).
func TestFretsStandInTrueProportion(t *testing.T) {
	for _, whole := range []bool{false, true} {
		n := newView(examples.Worked(t), Options{Whole: whole})
		for fret := n.from + 2; fret <= n.to; fret++ {
			ratio := (n.wire(fret) - n.wire(fret-1)) / (n.wire(fret-1) - n.wire(fret-2))
			if want := 1 - 1/17.817; math.Abs(ratio-want) > 1e-4 {
				t.Errorf("fret %d is %.5f as wide as the one before, want %.5f", fret, ratio, want)
			}
		}
	}
}

func TestALeftHandedNeckIsTheMirrorImage(t *testing.T) {
	right, left := examples.Worked(t), examples.Worked(t)
	left.Instrument.Left = true
	a, b := newView(right, Options{}), newView(left, Options{})
	for fret := a.from; fret <= a.to; fret++ {
		if math.Abs(a.wire(fret)+b.wire(fret)-a.width) > 1e-9 {
			t.Errorf("fret %d stands at %.2f and %.2f of %.2f", fret, a.wire(fret), b.wire(fret), a.width)
		}
	}
}

// A minor pentatonic at fret 5 and its shape from the open strings up: every
// spot shows, the shared ones show both scales.
func TestTheNeckShowsBothPlacements(t *testing.T) {
	in := neck.Guitar()
	home, above := examples.InWindow(in, examples.MinorPentatonic(t, "A"), 5, 8), examples.InWindow(in, examples.MinorPentatonic(t, "D"), 5, 8)
	ex := &exercise.Exercise{Instrument: in, Scales: []exercise.Scale{
		{Scale: home.Scale, Placement: home, Home: true}, {Scale: above.Scale, Placement: above},
	}}
	d := Draw(ex, Options{})
	count := map[string]int{}
	var walk func(items []surface.Item)
	walk = func(items []surface.Item) {
		for _, item := range items {
			if g, ok := item.(surface.Group); ok {
				count[g.Class]++
				walk(g.Items)
			}
		}
	}
	walk(d.Items)
	shared := 0
	for _, p := range home.Places {
		for _, q := range above.Places {
			if p.Spot == q.Spot {
				shared++
			}
		}
	}
	if shared == 0 || count["spot scale0 scale1"] != shared || count["spot scale0"] != len(home.Places)-shared || count["spot scale1"] != len(above.Places)-shared {
		t.Errorf("shared %d: spots are drawn as %v", shared, count)
	}
}

func TestASharedSpotBearsTheNamePlayedThereFirst(t *testing.T) {
	in := neck.Guitar()
	// F sharp and G flat minor pentatonic share every spot.
	sharp, flat := examples.InWindow(in, examples.MinorPentatonic(t, "F#"), 2, 5), examples.InWindow(in, examples.MinorPentatonic(t, "Gb"), 2, 5)
	for _, c := range []struct {
		scales []neck.Placement
		want   string
	}{
		{[]neck.Placement{sharp, flat}, "F♯"},
		{[]neck.Placement{flat, sharp}, "G♭"},
	} {
		ex := examples.Spelled(t, in, c.scales[0].Scale.Root.String()+"4", line.Quarter/2, line.Meter{Beats: 4, Unit: 4}, c.scales...)
		played := SpotID(ex.Notes[0].Spot)
		texts := examples.Texts(examples.Groups(Draw(ex, Options{}).Items, func(g surface.Group) bool { return g.ID == played }))
		if got := strings.Join(texts, " "); got != c.want {
			t.Errorf("the spot says %q, want %q", got, c.want)
		}
	}
	// Home has the spot, but the line plays it in the other scale.
	ex := examples.Spelled(t, in, "F#4", line.Quarter/2, line.Meter{Beats: 4, Unit: 4}, flat, sharp)
	ex.Notes[0].Scale = 1
	texts := examples.Texts(examples.Groups(Draw(ex, Options{}).Items, func(g surface.Group) bool { return g.ID == SpotID(ex.Notes[0].Spot) }))
	if got := strings.Join(texts, " "); got != "F♯" {
		t.Errorf("the spot says %q, want what is played there, F♯", got)
	}
}

func TestARowOfTheMapCanBeClickedAnywhere(t *testing.T) {
	in := neck.Guitar()
	home, out := examples.InWindow(in, examples.MinorPentatonic(t, "G"), 10, 13), examples.InWindow(in, examples.MinorPentatonic(t, "Ab"), 11, 14)
	pairs := []neck.Pair{{Home: home, Superimposed: []neck.Placement{out}}, {Home: home, Superimposed: []neck.Placement{out}}}
	d := Map(in, pairs, 1, Options{Width: 85})
	rows := examples.Groups(d.Items, func(g surface.Group) bool { return g.Class == "place" })
	if len(rows) != len(pairs) {
		t.Fatalf("%d rows, want %d", len(rows), len(pairs))
	}
	for i, row := range rows {
		ground, ok := row.(surface.Group).Items[0].(surface.Shape)
		if !ok || ground.Fill == surface.None {
			t.Fatalf("row %d has no ground to click", i)
		}
		box := examples.Bounds(ground)
		if box.MinX > 0 || box.MaxX < d.Width {
			t.Errorf("row %d can be clicked from %v to %v of %v mm", i, box.MinX, box.MaxX, d.Width)
		}
		if marked := ground.Fill == surface.Glow; marked != (i == 1) {
			t.Errorf("row %d is marked: %v", i, marked)
		}
	}
}

func TestAnEmptyExerciseDoesNotPanic(t *testing.T) {
	for _, in := range []neck.Instrument{{}, neck.Guitar(), {Open: []pitch.Pitch{{Octave: 3}}}} {
		Draw(&exercise.Exercise{Instrument: in}, Options{Section: 7, Whole: true})
		Map(in, nil, -1, Options{})
	}
}
