package score

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/score/internal/examples"
	"heddle/score/surface"
)

// A placedBox is a glyph or text of a drawing and its place.
type placedBox struct {
	what string
	note int // the note of its group, or −1
	box  surface.Box
}

// boxesOf returns the boxes of all glyphs and texts.
func boxesOf(items []surface.Item, note int) (boxes []placedBox) {
	for _, item := range items {
		switch it := item.(type) {
		case surface.Group:
			n := note
			if len(it.Notes) == 1 {
				n = it.Notes[0]
			}
			boxes = append(boxes, boxesOf(it.Items, n)...)
		case surface.Glyph:
			boxes = append(boxes, placedBox{signName(it.Sign), note, examples.Bounds(it)})
		case surface.Text:
			boxes = append(boxes, placedBox{fmt.Sprintf("%q", it.Text), note, examples.Bounds(it)})
		}
	}
	return boxes
}

// overlap returns how deep two boxes lie in each other in mm, 0 for not.
func overlap(a, b surface.Box) float64 {
	x := min(a.MaxX, b.MaxX) - max(a.MinX, b.MinX)
	y := min(a.MaxY, b.MaxY) - max(a.MinY, b.MinY)
	return max(0, min(x, y))
}

// mustOverlap reports pairs that belong together: a flag and its own note's
// head and dot, and the digits of a time signature, which the font makes a
// staff space and a hair high.
func mustOverlap(a, b placedBox) bool {
	is := func(p placedBox, kind string) bool { return strings.HasPrefix(p.what, kind) }
	return a.note == b.note && (is(a, "flag") || is(b, "flag")) || is(a, "timeSig") && is(b, "timeSig")
}

// collisions lists the pairs of boxes that overlap by more than a hair.
func collisions(items []surface.Item) (found []string) {
	const hair = 0.03 // mm
	boxes := boxesOf(items, -1)
	for i, a := range boxes {
		for _, b := range boxes[i+1:] {
			if d := overlap(a.box, b.box); d > hair && !mustOverlap(a, b) {
				found = append(found, fmt.Sprintf("%s of note %d and %s of note %d overlap by %.2f mm at %.1f, %.1f", a.what, a.note, b.what, b.note, d, a.box.MinX, a.box.MinY))
			}
		}
	}
	return found
}

func TestNothingCollidesInTheHardCases(t *testing.T) {
	for _, c := range examples.Cases(t) {
		l := newLayout(c.Exercise, Options{Theme: c.Theme, Width: c.Width, Repeat: c.Repeat})
		width := Options{Theme: c.Theme, Width: c.Width, Repeat: c.Repeat}.Width
		if width <= 0 {
			width = sheetWidth
		}
		l.fit(width)
		systems := l.systems(width / l.options.space())
		if len(systems) == 0 {
			t.Errorf("%s has no system", c.Name)
		}
		for i, s := range systems {
			for _, found := range collisions(s.draw(surface.Point{})) {
				t.Errorf("%s, system %d: %s", c.Name, i+1, found)
			}
		}
	}
}

// The law that a Sheet promises: no system wider than asked, all but the last
// justified to the width, columns from left to right.
func TestSystemsFillTheWidth(t *testing.T) {
	for _, c := range examples.Cases(t) {
		for _, width := range []float64{110, 180, 240, 400} {
			l := newLayout(c.Exercise, Options{Theme: c.Theme, Width: c.Width, Repeat: c.Repeat})
			l.fit(width)
			wide := width / l.options.space()
			systems := l.systems(wide)
			for i, s := range systems {
				if s.right > wide+1e-6 {
					t.Errorf("%s at %g mm: system %d is %.2f spaces wide of %.2f", c.Name, width, i+1, s.right, wide)
				}
				if !s.last && math.Abs(s.right-wide) > 1e-3 {
					t.Errorf("%s at %g mm: system %d ends at %.2f, not at %.2f", c.Name, width, i+1, s.right, wide)
				}
				for k := 1; k < len(s.columns); k++ {
					if s.columns[k].x-s.columns[k-1].x < s.columns[k-1].least-1e-6 {
						t.Errorf("%s at %g mm: system %d closes column %d below its least space", c.Name, width, i+1, k)
					}
				}
			}
		}
	}
}

// Exercises from all over the spec, set on a wide and a narrow page.
func TestNothingCollidesInExercisesFromSpecs(t *testing.T) {
	instruments := []string{"guitar", "bass", "seven-string guitar", "ukulele", "mandolin"}
	homes := []string{"G minor pentatonic", "C# harmonic minor", "Eb major pentatonic", "F# dorian", "Ab whole tone"}
	above := []string{"semitone up", "tritone", "minor third up"}
	values := []string{"quarter", "eighth", "eighth-triplet", "sixteenth", "sixteenth-triplet", "quintuplet"}
	meters := []string{"4/4", "3/4", "5/4", "6/8", "7/8", "12/8"}
	namings := []string{"english", "german", "solfege"}
	touches := []string{"blues", "funk", "accents, bends, quarter bends, slides, vibrato, ghost notes, staccato", "jazz"}
	count := 0
	for i, value := range values {
		for j, meter := range meters {
			n := i*len(meters) + j
			text := fmt.Sprintf("home: %s\nsuperimpose: %s\ninstrument: %s\nvalue: %s\nmeter: %s\nnames: %s\ngroups: %d,%d\nland: third\n",
				homes[n%len(homes)], above[n%len(above)], instruments[(i+j)%len(instruments)], value, meter, namings[n%3], 1+n%4, 1+(n/2)%4)
			if n%2 == 1 {
				text += fmt.Sprintf("fret: 7\ntouch: %s\n", touches[n%len(touches)])
			}
			if n%5 == 0 {
				text += "pickup: 0.5\ngap: 0.5\npicking: legato\n"
			}
			spec, err := exercise.ParseText(text)
			if err != nil {
				t.Fatal(err)
			}
			ex, err := exercise.Build(spec)
			if err != nil {
				continue // a spec that no neck holds, such as a landing without room
			}
			count++
			for _, width := range []float64{100, 180} {
				l := newLayout(ex, Options{})
				l.fit(width)
				for k, s := range l.systems(width / l.options.space()) {
					for _, found := range collisions(s.draw(surface.Point{})) {
						t.Errorf("%q at %g mm, system %d: %s", strings.ReplaceAll(text, "\n", ", "), width, k+1, found)
					}
				}
			}
		}
	}
	if count < 25 {
		t.Errorf("only %d of the specs could be built", count)
	}
}

// signName names the kinds of sign that may overlap.
func signName(s surface.Sign) string {
	switch {
	case s >= surface.FlagEighthUp && s < surface.FlagEighthUp+16:
		return "flag"
	case s >= surface.TimeDigit && s < surface.TimeDigit+10:
		return "timeSig"
	}
	return fmt.Sprintf("U+%X", int(s))
}
