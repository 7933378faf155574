package score

import (
	"reflect"
	"strings"
	"testing"

	"heddle/line"
	"heddle/neck"
	"heddle/score/surface"
)

// As many scales as a spec may superimpose are told apart by colour, by figure
// and by line.
func TestEverySuperimposedScaleHasItsOwnMarks(t *testing.T) {
	const scales = 6
	for a := range scales {
		for b := range a {
			if reflect.DeepEqual(dashOf(a), dashOf(b)) {
				t.Errorf("scales %d and %d have one line", a, b)
			}
			if reflect.DeepEqual(figureOf(a, surface.Point{}, 1, surface.None, surface.Ink, 0.1), figureOf(b, surface.Point{}, 1, surface.None, surface.Ink, 0.1)) {
				t.Errorf("scales %d and %d have one figure", a, b)
			}
		}
	}
}

func TestASharedSpotBearsTheNamePlayedThereFirst(t *testing.T) {
	in := neck.Guitar()
	// F sharp and G flat minor pentatonic share every spot.
	sharp, flat := inWindow(in, minorPentatonic(t, "F#"), 2, 5), inWindow(in, minorPentatonic(t, "Gb"), 2, 5)
	for _, c := range []struct {
		scales []neck.Placement
		want   string
	}{
		{[]neck.Placement{sharp, flat}, "F♯"},
		{[]neck.Placement{flat, sharp}, "G♭"},
	} {
		ex := spelled(t, in, c.scales[0].Scale.Root.String()+"4", line.Quarter/2, line.Meter{Beats: 4, Unit: 4}, c.scales...)
		played := SpotID(ex.Notes[0].Spot)
		texts := textsOf(groupsOf(Neck(ex, Options{}).Items, func(g surface.Group) bool { return g.ID == played }))
		if got := strings.Join(texts, " "); got != c.want {
			t.Errorf("the spot says %q, want %q", got, c.want)
		}
	}
	// Home has the spot, but the line plays it in the other scale.
	ex := spelled(t, in, "F#4", line.Quarter/2, line.Meter{Beats: 4, Unit: 4}, flat, sharp)
	ex.Notes[0].Scale = 1
	texts := textsOf(groupsOf(Neck(ex, Options{}).Items, func(g surface.Group) bool { return g.ID == SpotID(ex.Notes[0].Spot) }))
	if got := strings.Join(texts, " "); got != "F♯" {
		t.Errorf("the spot says %q, want what is played there, F♯", got)
	}
}

func groupsOf(items []surface.Item, wanted func(surface.Group) bool) (list []surface.Item) {
	for _, item := range items {
		if g, ok := item.(surface.Group); ok {
			if wanted(g) {
				list = append(list, g)
			}
			list = append(list, groupsOf(g.Items, wanted)...)
		}
	}
	return list
}

func textsOf(items []surface.Item) (list []string) {
	for _, item := range items {
		switch it := item.(type) {
		case surface.Text:
			list = append(list, it.Text)
		case surface.Group:
			list = append(list, textsOf(it.Items)...)
		}
	}
	return list
}

// One scale has one label over all brackets of a line.
func TestBracketsOfALineAreLabelledAlike(t *testing.T) {
	for _, width := range []float64{120, 180, 240, 290, 400, 600} {
		_, _, systems := sheetSystems(workedExample(t), Options{Width: width})
		full, short := 0, 0
		for _, s := range systems {
			for _, m := range s.brackets {
				if m.full {
					full++
				} else {
					short++
				}
			}
		}
		if full > 0 && short > 0 || full+short == 0 {
			t.Errorf("at %v mm %d brackets have long labels and %d short ones", width, full, short)
		}
	}
}

func TestARowOfTheMapCanBeClickedAnywhere(t *testing.T) {
	in := neck.Guitar()
	home, out := inWindow(in, minorPentatonic(t, "G"), 10, 13), inWindow(in, minorPentatonic(t, "Ab"), 11, 14)
	pairs := []neck.Pair{{Home: home, Superimposed: []neck.Placement{out}}, {Home: home, Superimposed: []neck.Placement{out}}}
	d := Map(in, pairs, 1, Options{Width: 85})
	rows := groupsOf(d.Items, func(g surface.Group) bool { return g.Class == "place" })
	if len(rows) != len(pairs) {
		t.Fatalf("%d rows, want %d", len(rows), len(pairs))
	}
	for i, row := range rows {
		ground, ok := row.(surface.Group).Items[0].(surface.Shape)
		if !ok || ground.Fill == surface.None {
			t.Fatalf("row %d has no ground to click", i)
		}
		box := boundsOf(ground)
		if box.MinX > 0 || box.MaxX < d.Width {
			t.Errorf("row %d can be clicked from %v to %v of %v mm", i, box.MinX, box.MaxX, d.Width)
		}
		if marked := ground.Fill == surface.Glow; marked != (i == 1) {
			t.Errorf("row %d is marked: %v", i, marked)
		}
	}
}
