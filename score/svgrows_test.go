package score

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"heddle/score/internal/examples"
	"heddle/score/strip"
	"heddle/score/surface"
)

// Written by row, a drawing shows each character and each outline just where it
// shows it note by note, with far fewer elements.
func TestRowsShowWhatNotesShow(t *testing.T) {
	ex := examples.Worked(t)
	for name, draw := range map[string]func(Options) surface.Drawing{
		"sheet": func(o Options) surface.Drawing { return Sheet(ex, o) },
		"strip": func(o Options) surface.Drawing { return strip.Draw(ex, strip.Options{Width: o.Width, ByRow: o.ByRow}) },
	} {
		notes, _ := parseSVG(t, draw(Options{Width: 200}))
		rows, _ := parseSVG(t, draw(Options{Width: 200, ByRow: true}))
		want, got := characters(t, notes), characters(t, rows)
		if len(got) != len(want) {
			t.Fatalf("%s: %d characters, want %d", name, len(got), len(want))
		}
		for i, c := range want {
			if got[i].what != c.what || math.Abs(got[i].x-c.x) > 0.02 {
				t.Fatalf("%s: a character is %+v, want %+v", name, got[i], c)
			}
		}
		if want, got := outlined(notes), outlined(rows); want != got {
			t.Errorf("%s: the outlines by paint are not the same", name)
		}
		if len(rows)*2 > len(notes)+len(ex.Notes) {
			t.Errorf("%s: %d elements by row, %d by note", name, len(rows), len(notes))
		}
	}
}

// A character is one of a text, and where it begins in mm.
type character struct {
	what string // it and its baseline, size and paint
	x    float64
}

// characters returns every character of the texts in a fixed order.
func characters(t *testing.T, elements []*element) []character {
	t.Helper()
	var list []character
	for _, e := range elements {
		if e.name != "text" {
			continue
		}
		size, err := strconv.ParseFloat(e.attr["font-size"], 64)
		if err != nil {
			t.Fatal(err)
		}
		face := surface.Sans
		switch bold := e.attr["font-weight"] == "600"; {
		case strings.Contains(e.attr["font-family"], "Serif") && bold:
			face = surface.SerifBold
		case strings.Contains(e.attr["font-family"], "Serif"):
			face = surface.Serif
		case bold:
			face = surface.SansBold
		}
		places := strings.Fields(e.attr["x"])
		x, err := strconv.ParseFloat(places[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		if e.attr["text-anchor"] == "middle" {
			x -= face.Width(e.text, size) / 2
		} else if e.attr["text-anchor"] == "end" {
			x -= face.Width(e.text, size)
		}
		for i, c := range []rune(e.text) {
			if len(places) > 1 {
				if x, err = strconv.ParseFloat(places[i], 64); err != nil {
					t.Fatal(err)
				}
			}
			list = append(list, character{fmt.Sprintf("%c at %s, %s, %s", c, e.attr["y"], e.attr["font-size"], e.attr["class"]), x})
			x += face.Width(string(c), size)
		}
	}
	slices.SortFunc(list, func(a, b character) int { return cmp.Or(cmp.Compare(a.what, b.what), cmp.Compare(a.x, b.x)) })
	return list
}

// outlined returns the filled outlines, in the order of their paints.
func outlined(elements []*element) string {
	byPaint := map[string]string{}
	for _, e := range elements {
		if e.name == "path" && e.attr["stroke-width"] == "" {
			byPaint[e.attr["class"]] += e.attr["d"]
		}
	}
	return fmt.Sprint(byPaint) // sorted by key
}
