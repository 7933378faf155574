package score

import (
	"math"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
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
	for _, c := range hardCases(t) {
		for page, size := range map[Page][2]float64{A4: {210, 297}, Letter: {215.9, 279.4}} {
			options := c.options
			options.Page, options.Width, options.Title = page, 0, "Out and back"
			pages, err := Pages(c.exercise, options)
			if err != nil {
				t.Fatal(err)
			}
			count := map[int]int{}
			for i, d := range pages {
				if math.Abs(d.Width-size[0]) > 1e-9 || math.Abs(d.Height-size[1]) > 1e-9 {
					t.Errorf("%s: page %d is %g by %g mm", c.name, i+1, d.Width, d.Height)
				}
				box := boundsOf(surface.Group{Items: d.Items})
				const printers = 4.5 // mm that most printers leave white
				if box.MinX < sideMargin-1 || box.MaxX > d.Width-sideMargin+1 || box.MinY < printers || box.MaxY > d.Height-printers {
					t.Errorf("%s: page %d is filled from %.1f", c.name, i+1, box)
				}
				notesOf(d.Items, "note", count)
			}
			for n := range c.exercise.Notes {
				if count[n] != 1 {
					t.Errorf("%s: note %d stands %d times on the pages", c.name, n, count[n])
				}
			}
		}
	}
}

func TestSystemsDoNotRunIntoTheFooterOrEachOther(t *testing.T) {
	pages, err := Pages(threeHundred(t), Options{Title: "Three hundred"})
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
			box := boundsOf(g)
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
	ex := workedExample(t)
	ex.Sentence = strings.Repeat("each group starting beside the first note of the one before ", 8)
	pages, err := Pages(ex, Options{Title: strings.Repeat("Out and back in G minor ", 6)})
	if err != nil {
		t.Fatal(err)
	}
	box := boundsOf(surface.Group{Items: pages[0].Items})
	if box.MaxX > pages[0].Width-sideMargin+1 {
		t.Errorf("text runs to %.1f mm of %.1f", box.MaxX, pages[0].Width)
	}
}

// The sentence's changeable words are bold, and the commas after them are
// not parted from them.
func TestTheSentenceShowsWhatCanBeChanged(t *testing.T) {
	ex := workedExample(t)
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

func TestPartsCanBeLeftOut(t *testing.T) {
	ex := workedExample(t)
	full := newLayout(ex, Options{}).systems(116)[0].height()
	for name, part := range map[string]Part{
		"tablature": Tablature, "names": NoteNames, "degrees": Degrees, "roughness": Roughness, "fingers": Fingers,
		"strokes": Strokes, "brackets": Brackets, "chords": ChordSymbols, "tempo": TempoMark,
	} {
		if h := newLayout(ex, Options{Without: part}).systems(116)[0].height(); h >= full {
			t.Errorf("without %s the system is %.1f spaces high, with it %.1f", name, h, full)
		}
	}
}

// The rule of the eighteenth: each fret takes off 1/17.817 of what is left
// (equal temperament; a handbook rule).
func TestFretsStandInTrueProportion(t *testing.T) {
	for _, whole := range []bool{false, true} {
		n := newNeckView(workedExample(t), Options{Whole: whole}, stringGap)
		for fret := n.from + 2; fret <= n.to; fret++ {
			ratio := (n.wire(fret) - n.wire(fret-1)) / (n.wire(fret-1) - n.wire(fret-2))
			if want := 1 - 1/17.817; math.Abs(ratio-want) > 1e-4 {
				t.Errorf("fret %d is %.5f as wide as the one before, want %.5f", fret, ratio, want)
			}
		}
	}
}

func TestALeftHandedNeckIsTheMirrorImage(t *testing.T) {
	right, left := workedExample(t), workedExample(t)
	left.Instrument.Left = true
	a, b := newNeckView(right, Options{}, stringGap), newNeckView(left, Options{}, stringGap)
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
	home, above := inWindow(in, minorPentatonic(t, "A"), 5, 8), inWindow(in, minorPentatonic(t, "D"), 5, 8)
	ex := &exercise.Exercise{Instrument: in, Scales: []exercise.Scale{
		{Scale: home.Scale, Placement: home, Home: true}, {Scale: above.Scale, Placement: above},
	}}
	d := Neck(ex, Options{})
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

func TestAnEmptyExerciseDoesNotPanic(t *testing.T) {
	empty := &exercise.Exercise{}
	if _, err := Pages(empty, Options{}); err == nil {
		t.Error("an exercise without an instrument makes pages")
	}
	for _, ex := range []*exercise.Exercise{empty, {Instrument: neck.Guitar()}, {Instrument: neck.Instrument{Open: []pitch.Pitch{{Octave: 3}}}}} {
		Sheet(ex, Options{Width: 1, Space: 1e9})
		Sheet(ex, Options{Width: math.Inf(1)})
		Neck(ex, Options{Section: 7, Whole: true})
		Strip(ex, Options{Width: -4})
		Map(ex.Instrument, nil, -1, Options{})
	}
	if _, err := Pages(&exercise.Exercise{Instrument: neck.Guitar()}, Options{}); err != nil {
		t.Error(err)
	}
}
