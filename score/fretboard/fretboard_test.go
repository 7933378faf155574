package fretboard

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
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
			t.Errorf("fret %d is at %.2f and %.2f of %.2f", fret, a.wire(fret), b.wire(fret), a.width)
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

// Over many exercises: a spot has the name from the first of the scales drawn there,
// home before all others, whatever the line plays; and its degree is what the staff
// says of that note over the same chord.
func TestLawASpotIsLabelledByTheScaleDrawnInItsMiddle(t *testing.T) {
	types := []string{"minor pentatonic", "major pentatonic", "minor blues", "major", "dorian", "altered", "octatonic", "whole tone", "melodic minor"}
	rapid.Check(t, func(t *rapid.T) {
		root := rapid.SampledFrom(strings.Fields("C Db D Eb E F F# Gb G Ab A Bb B")).Draw(t, "root")
		spec := exercise.Spec{
			Home:        root + " " + rapid.SampledFrom(types).Draw(t, "home"),
			Superimpose: rapid.SliceOfN(rapid.SampledFrom([]string{"tritone", "semitone up", "semitone down", "minor third up", "fourth up", "whole tone up major pentatonic"}), 1, 3).Draw(t, "superimpose"),
			Direction:   "up-down",
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			return // no placements near enough
		}
		names, degrees := spotTexts(Draw(ex, Options{})), spotTexts(Draw(ex, Options{Labels: DegreeLabels}))
		labelled := map[string]bool{}
		for _, s := range ex.Scales {
			for _, place := range s.Placement.AllPlaces() {
				id := SpotID(place.Spot)
				if labelled[id] {
					continue
				}
				labelled[id] = true
				if want := place.Pitch.Name.Symbol(); names[id] != want {
					t.Fatalf("%v: %s says %q, %s has %s there", spec, id, names[id], s.Name(), want)
				}
				for _, n := range ex.Notes {
					if n.Spot == place.Spot && n.Scale >= 0 && ex.Scales[n.Scale].Name() == s.Name() && n.Degree.Symbol() != degrees[id] {
						t.Fatalf("%v: %s has degree %s, the staff says %s", spec, id, degrees[id], n.Degree.Symbol())
					}
				}
			}
		}
	})
}

// spotTexts returns what each spot says, by its id.
func spotTexts(d surface.Drawing) map[string]string {
	texts := map[string]string{}
	for _, g := range examples.Groups(d.Items, func(g surface.Group) bool { return strings.HasPrefix(g.Class, "spot") }) {
		texts[g.(surface.Group).ID] = strings.Join(examples.Texts([]surface.Item{g}), " ")
	}
	return texts
}

// C major over Cmaj7 with the same scale a tritone away: home's spots keep home's
// names where both scales lie.
func TestHomeSpotsAreNamedByHome(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "C major", Superimpose: []string{"tritone"}, Groups: []int{2, 2}, Direction: "up-down"})
	if err != nil {
		t.Fatal(err)
	}
	texts := spotTexts(Draw(ex, Options{}))
	for _, place := range ex.Scales[0].Placement.Places {
		if got := texts[SpotID(place.Spot)]; len(got) != 1 {
			t.Errorf("string %d fret %d says %s", place.String, place.Fret, got)
		}
	}
}

func TestDegreesSayWhatTheyAreRelativeTo(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Chord: "Bb7", Superimpose: []string{"semitone up"}})
	if err != nil {
		t.Fatal(err)
	}
	d := Draw(ex, Options{Labels: DegreeLabels})
	if texts := strings.Join(examples.Texts(d.Items), "\n"); !strings.Contains(texts, "degrees over B♭7") || !strings.Contains(d.Description, "degrees over B♭7") {
		t.Errorf("the neck does not say it: %s\n%s", texts, d.Description)
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
