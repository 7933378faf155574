package paper

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/neck"
	"heddle/score/internal/examples"
	"heddle/score/surface"
)

// notesOf counts how often each note has a group of its own class.
func notesOf(items []surface.Item, class string, count map[int]int) {
	for _, item := range items {
		if g, ok := item.(surface.Group); ok {
			if strings.HasPrefix(g.Class, class) && g.ID != "" {
				for _, n := range g.Notes {
					count[n]++
				}
			}
			notesOf(g.Items, class, count)
		}
	}
}

func TestPagesHoldEveryNoteOnceAndKeepTheirMargins(t *testing.T) {
	for _, c := range examples.Cases(t) {
		for page, size := range map[Size][2]float64{A4: {210, 297}, Letter: {215.9, 279.4}} {
			options := Options{Size: page, Title: "Out and back"}
			options.Music.Theme, options.Music.Repeat = c.Theme, c.Repeat
			pages, err := Pages(c.Exercise, options)
			if err != nil {
				t.Fatal(err)
			}
			count := map[int]int{}
			for i, d := range pages {
				if math.Abs(d.Width-size[0]) > 1e-9 || math.Abs(d.Height-size[1]) > 1e-9 {
					t.Errorf("%s: page %d is %g by %g mm", c.Name, i+1, d.Width, d.Height)
				}
				box := examples.Bounds(surface.Group{Items: d.Items})
				const printers = 4.5 // mm that most printers leave white
				if box.MinX < sideMargin-1 || box.MaxX > d.Width-sideMargin+1 || box.MinY < printers || box.MaxY > d.Height-printers {
					t.Errorf("%s: page %d is filled from %.1f", c.Name, i+1, box)
				}
				notesOf(d.Items, "note", count)
			}
			for n := range c.Exercise.Notes {
				if count[n] != 1 {
					t.Errorf("%s: note %d is on the pages %d times", c.Name, n, count[n])
				}
			}
		}
	}
}

func TestSystemsDoNotRunIntoTheFooterOrEachOther(t *testing.T) {
	pages, err := Pages(examples.ThreeHundred(t), Options{Title: "Three hundred"})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) < 2 {
		t.Fatalf("300 notes on %d page", len(pages))
	}
	for i, d := range pages {
		last := 0.0
		for _, item := range d.Items {
			g, ok := item.(surface.Group)
			if !ok || g.Class != "system" {
				continue
			}
			box := examples.Bounds(g)
			if box.MinY < last-0.01 {
				t.Errorf("page %d: a system begins at %.1f, the one before ends at %.1f", i+1, box.MinY, last)
			}
			last = box.MaxY
		}
		if last > d.Height-bottomMargin+1 {
			t.Errorf("page %d is filled to %.1f mm", i+1, last)
		}
	}
}

func TestLongTitlesAndSentencesAreBroken(t *testing.T) {
	ex := examples.Worked(t)
	ex.Sentence = strings.Repeat("each group starting beside the first note of the one before ", 8)
	pages, err := Pages(ex, Options{Title: strings.Repeat("Out and back in G minor ", 6)})
	if err != nil {
		t.Fatal(err)
	}
	box := examples.Bounds(surface.Group{Items: pages[0].Items})
	if box.MaxX > pages[0].Width-sideMargin+1 {
		t.Errorf("text runs to %.1f mm of %.1f", box.MaxX, pages[0].Width)
	}
}

// The sentence's changeable words are bold, and the commas after them are
// not parted from them.
func TestTheSentenceShowsWhatCanBeChanged(t *testing.T) {
	ex := examples.Worked(t)
	ex.Phrases = []exercise.Phrase{
		{Text: "Over "}, {Text: "Gm7", Field: "chord"}, {Text: ", weave "}, {Text: "G minor pentatonic", Field: "home"}, {Text: "."},
	}
	lines := sentenceLines(ex, 180)
	if len(lines) != 1 {
		t.Fatalf("%d lines", len(lines))
	}
	var got []string
	for _, piece := range lines[0].joined() {
		text := piece.text
		if piece.face == surface.SerifBold {
			text = "*" + text + "*"
		}
		got = append(got, text)
	}
	want := "Over|* Gm7*|, weave|* G minor pentatonic*|."
	if joined := strings.Join(got, "|"); joined != want {
		t.Errorf("the sentence is set as %s, want %s", joined, want)
	}
}

func TestAnEmptyExerciseDoesNotPanic(t *testing.T) {
	if _, err := Pages(&exercise.Exercise{}, Options{}); err == nil {
		t.Error("an exercise without an instrument makes pages")
	}
	if _, err := Pages(&exercise.Exercise{Instrument: neck.Guitar()}, Options{}); err != nil {
		t.Error(err)
	}
}

// textsOn returns the texts of a page and where each begins.
func textsOn(d surface.Drawing) map[string]surface.Point {
	at := map[string]surface.Point{}
	for _, item := range d.Items {
		if text, ok := item.(surface.Text); ok {
			at[text.Text] = text.At
		}
	}
	return at
}

func TestEveryPageHasItsTitleAndNumber(t *testing.T) {
	ex := examples.ThreeHundred(t)
	for _, title := range []string{"", "Thursday evening"} {
		pages, err := Pages(ex, Options{Title: title})
		if err != nil {
			t.Fatal(err)
		}
		want := title
		if want == "" {
			want = "G minor pentatonic with A♭ minor pentatonic over Gm7"
		}
		for i, d := range pages {
			texts := textsOn(d)
			if _, ok := texts[want]; !ok {
				t.Errorf("page %d lacks the title %q", i+1, want)
			}
			if _, ok := texts[fmt.Sprintf("%d / %d", i+1, len(pages))]; !ok {
				t.Errorf("page %d lacks its number", i+1)
			}
			if _, ok := texts["Name"]; ok != (i == 0) {
				t.Errorf("page %d has a line for the name: %v", i+1, ok)
			}
		}
	}
}

func TestAHandoutHasTheNoteUnderTheSentence(t *testing.T) {
	ex := examples.Worked(t)
	note := "Accent the first note of each group."
	pages, err := Pages(ex, Options{Note: note})
	if err != nil {
		t.Fatal(err)
	}
	texts := textsOn(pages[0])
	at, ok := texts[note]
	if !ok || at.Y < texts["Name"].Y+titleSize {
		t.Errorf("the note is at %v", at)
	}
	if _, ok := texts["Date"]; !ok {
		t.Error("there is no line for the date")
	}
	poster, err := Poster(ex, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := textsOn(poster)["Name"]; ok {
		t.Error("a picture has a line for a name")
	}
}

// A line of two systems or more fills its page down to the foot, with a staff of
// printed size or larger.
func TestAHandoutFillsItsPage(t *testing.T) {
	for _, c := range examples.Cases(t) {
		pages, err := Pages(c.Exercise, Options{})
		if err != nil {
			t.Fatal(err)
		}
		systems, lowest := 0, 0.0
		for _, item := range pages[0].Items {
			if g, ok := item.(surface.Group); ok && g.Class == "system" {
				systems++
				lowest = examples.Bounds(g).MaxY
			}
		}
		if left := pages[0].Height - bottomMargin - lowest; systems > 2 && left > 0.12*pages[0].Height {
			t.Errorf("%s: %.0f mm stay empty under %d systems", c.Name, left, systems)
		}
	}
}
