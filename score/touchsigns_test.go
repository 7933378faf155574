package score

import (
	"slices"
	"testing"

	"heddle/exercise"
	"heddle/score/surface"
	"heddle/touch"
)

// textsOf returns the texts of a drawing by the one note of their group.
func textsOf(items []surface.Item) map[int][]string {
	texts := map[int][]string{}
	var walk func([]surface.Item, int)
	walk = func(items []surface.Item, note int) {
		for _, item := range items {
			switch it := item.(type) {
			case surface.Group:
				if len(it.Notes) == 1 {
					note = it.Notes[0]
				}
				walk(it.Items, note)
			case surface.Text:
				texts[note] = append(texts[note], it.Text)
			}
		}
	}
	walk(items, -1)
	return texts
}

// The tablature has the fret at which a bent string is stopped and the size of the
// bend, and brackets around ghost notes; a plain note has neither.
func TestTouchesAreWritten(t *testing.T) {
	for _, style := range []string{"bends, quarter bends", "ghost notes, accents"} {
		ex, err := exercise.Build(exercise.Spec{Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Touch: style, Land: "third"})
		if err != nil {
			t.Fatal(err)
		}
		l := newLayout(ex, Options{})
		l.fit(180)
		written := map[int][]string{}
		for _, s := range l.systems(180 / l.options.space()) {
			for note, texts := range textsOf(s.draw(surface.Point{})) {
				written[note] = append(written[note], texts...)
			}
		}
		signs := []string{"full", "½", "¼", "(", ")"}
		touched := 0
		for i, n := range ex.Notes {
			var want, got []string
			if n.Touch.Bend > 0 {
				want = append(want, bendLabels[n.Touch.Bend])
			}
			if n.Touch.Ghost {
				want = append(want, "(", ")")
			}
			for _, text := range written[i] {
				if slices.Contains(signs, text) {
					got = append(got, text)
				}
			}
			slices.Sort(want)
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("%s: note %d, %q, has the signs %q, want %q", style, i, n.Touch, got, want)
			}
			if n.Touch.Bend > 0 || n.Touch.Ghost {
				touched++
			}
		}
		if touched == 0 {
			t.Errorf("%s: nothing is touched", style)
		}
	}
}

// An accent is never inside the staff, a staccato dot never on a line (common
// practice).
func TestArticulationsKeepOffTheStaffLines(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "G dorian", Superimpose: []string{"semitone up"}, Groups: []int{4, 3}, Fret: 7, Touch: "accents, staccato", Picking: "legato"})
	if err != nil {
		t.Fatal(err)
	}
	l := newLayout(ex, Options{})
	l.fit(180)
	accents, dots := 0, 0
	for _, s := range l.systems(180 / l.options.space()) {
		for i := range s.heads {
			h := &s.heads[i]
			shape := s.touchOf(h.event)
			for _, item := range s.staffTouch(pen{space: 1}, h, touch.Touch{Accent: shape.Accent, Staccato: shape.Staccato}) {
				switch it := item.(type) {
				case surface.Disc:
					dots++
					if y := it.Center.Y; y > -0.1 && y < staffHeight+0.1 && y == float64(int(y)) {
						t.Errorf("the dot of note %d is on the line at %v", h.event.Note, y)
					}
				case surface.Rules:
					accents++
					for _, line := range it.Lines {
						if y := line[0].Y; y > -0.4 && y < staffHeight+0.4 {
							t.Errorf("the accent of note %d is in the staff at %v", h.event.Note, y)
						}
					}
				}
			}
		}
	}
	if accents == 0 || dots == 0 {
		t.Errorf("%d accents, %d dots", accents, dots)
	}
}
