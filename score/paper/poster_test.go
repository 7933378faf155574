package paper

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/score/surface"
)

func TestAPosterHoldsEveryNoteOnOneSheet(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "A minor blues", Superimpose: []string{"tritone"}, Groups: []int{4}, Fret: 5, Land: "root"})
	if err != nil {
		t.Fatal(err)
	}
	d, err := Poster(ex, Options{Title: "Thursday evening"})
	if err != nil {
		t.Fatal(err)
	}
	if d.Width != 210 || d.Height < 150 || d.Height > 600 {
		t.Errorf("the poster measures %g by %g mm", d.Width, d.Height)
	}
	var svg bytes.Buffer
	if err := surface.WriteSVG(&svg, d); err != nil {
		t.Fatal(err)
	}
	for i := range ex.Notes {
		if !strings.Contains(svg.String(), fmt.Sprintf(`data-note="%d"`, i)) {
			t.Errorf("note %d is not on the poster", i)
		}
	}
	if !strings.Contains(svg.String(), "Thursday evening") {
		t.Error("the poster has no title")
	}
}
