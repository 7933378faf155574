package take

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/hear"
	"heddle/score/surface"
)

// heardAs is what a perfect ear hears of a line played in time, firstBarS into
// the recording: all but the notes that are left out.
func heardAs(ex *exercise.Exercise, firstBarS float64, left map[int]bool) []hear.Heard {
	var heard []hear.Heard
	quarterS := 60 / ex.Tempo
	for i, n := range ex.Notes {
		if left[i] {
			continue
		}
		from, to := ex.Rhythm.Sounding(n.Start).Quarters(), ex.Rhythm.Sounding(n.End()).Quarters()
		heard = append(heard, hear.Heard{OnsetS: firstBarS + from*quarterS, OffsetS: firstBarS + to*quarterS, MIDI: float64(n.Pitch.MIDI()), Confidence: 1, Level: -20})
	}
	return heard
}

// groupsIn lists the groups of a class in a picture.
func groupsIn(items []surface.Item, class string) (list []surface.Group) {
	for _, item := range items {
		if g, ok := item.(surface.Group); ok {
			if g.Class == class || strings.HasPrefix(g.Class, class+" ") {
				list = append(list, g)
			}
			list = append(list, groupsIn(g.Items, class)...)
		}
	}
	return list
}

// boxOf is the outline of a written note, in mm.
func boxOf(t *testing.T, note surface.Group) (left, top, right float64) {
	t.Helper()
	for _, g := range groupsIn(note.Items, "box") {
		path := g.Items[0].(surface.Shape).Path
		return path[0].P[0].X, path[0].P[0].Y, path[1].P[0].X
	}
	t.Fatal("a note without an outline")
	return
}

func TestThePictureShowsEveryNoteOnceWithinItsRoom(t *testing.T) {
	lines := []string{
		"home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=84&land=third",
		"home=A+blues&superimpose=tritone&groups=4%2C3&value=sixteenth&meter=7%2F8&tempo=60&bars=5",
		"home=D+dorian&groups=4&value=eighth-triplet&feel=swing+2%3A1&tempo=180",
		"home=E+minor+pentatonic&pickup=1.5&meter=3%2F4&value=quintuplet&bars=4",
		"home=C+major&value=quarter&bars=2",
	}
	for _, query := range lines {
		spec, err := exercise.ParseQuery(query)
		if err != nil {
			t.Fatal(err)
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		missed := map[int]bool{2: true, len(ex.Notes) - 1: true}
		report := hear.Mark(heardAs(ex, 3, missed), 0, ex, hear.TakeOptions{Clicked: true, ClickS: 3})
		for _, room := range []int{280, 720, 1400} {
			picture, outside := drawOver(ex, report, room)
			if outside != 0 {
				t.Errorf("%s: %d extra notes are outside the picture", query, outside)
			}
			if widest := float64(room) * site.MMPerPixel; picture.Width > widest+1e-9 {
				t.Errorf("%s: a picture of %v mm for a room of %v", query, picture.Width, widest)
			}
			seen := map[int]string{}
			for _, note := range groupsIn(picture.Items, "take-note") {
				if _, again := seen[note.Notes[0]]; again {
					t.Errorf("%s, room %d: note %d is there twice", query, room, note.Notes[0])
				}
				seen[note.Notes[0]] = note.Class
				if left, _, right := boxOf(t, note); left < 0 || left > picture.Width || right <= left {
					t.Errorf("%s, room %d: a note from %v to %v in %v mm", query, room, left, right, picture.Width)
				}
			}
			if len(seen) != len(ex.Notes) {
				t.Errorf("%s, room %d: %d of %d notes are shown", query, room, len(seen), len(ex.Notes))
			}
			for i := range ex.Notes {
				want := "take-note right"
				if missed[i] {
					want = "take-note missed"
				}
				if got := seen[i]; got != want {
					t.Errorf("%s: note %d is shown as %q, want %q", query, i, got, want)
				}
			}
		}
	}
}

// shortLine is two bars of eighths.
func shortLine(t *testing.T) *exercise.Exercise {
	t.Helper()
	spec, err := exercise.ParseQuery("home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&bars=2")
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

func TestExtraNotesOutsideTheLineAreCounted(t *testing.T) {
	ex := shortLine(t)
	heard := heardAs(ex, 10, nil)
	for _, at := range []float64{2, 3, 40, 41} {
		heard = append(heard, hear.Heard{OnsetS: at, OffsetS: at + 0.4, MIDI: 50, Confidence: 1, Level: -20})
	}
	slices.SortFunc(heard, func(a, b hear.Heard) int { return cmp.Compare(a.OnsetS, b.OnsetS) })
	m := hear.Mark(heard, 0, ex, hear.TakeOptions{Clicked: true, ClickS: 10})
	if _, outside := drawOver(ex, m, 800); outside != 2 {
		t.Errorf("%d extra notes are outside the picture, want 2", outside)
	}
	facts := newReport(ex, m, 800).Facts
	for _, want := range []string{"2 extra notes outside the line: not drawn.", "2 notes before the line: not counted."} {
		if !slices.Contains(facts, want) {
			t.Errorf("the facts %q lack %q", facts, want)
		}
	}
}

func TestTheNameOfANoteThatWasPlayedSharpStandsBelowIt(t *testing.T) {
	ex := shortLine(t)
	heard := heardAs(ex, 1, nil)
	heard[4].MIDI += 2
	picture, _ := drawOver(ex, hear.Mark(heard, 0, ex, hear.TakeOptions{Clicked: true, ClickS: 1}), 800)
	for i, note := range groupsIn(picture.Items, "take-note") {
		_, top, _ := boxOf(t, note)
		name := groupsIn(note.Items, "name")[0].Items[0].(surface.Text)
		if below := name.At.Y > top; below != (i == 4) {
			t.Errorf("the name of note %d is below its outline: %v", i, below)
		}
	}
}

func TestTheTimingOfAnotherLineIsNotShown(t *testing.T) {
	ex := shortLine(t)
	other := heardAs(ex, 1, nil)
	for i := range other {
		other[i].MIDI = 45 + float64(5*i%7)
	}
	if r := newReport(ex, hear.Mark(other, 0, ex, hear.TakeOptions{Clicked: true, ClickS: 1}), 800); r.OffsetS != "" || len(r.Facts) > 0 {
		t.Errorf("of another line it says %q, from %q s", r.Facts, r.OffsetS)
	}
}

func TestWrongNotesAreSaidInWords(t *testing.T) {
	for cents, want := range map[float64]string{100: "1 semitone too high", -1195: "12 semitones too low"} {
		if got := semitoneWords(cents); got != want {
			t.Errorf("%v cents: %q, want %q", cents, got, want)
		}
	}
}
