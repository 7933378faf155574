package score_test

import (
	"bytes"
	"cmp"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"heddle/score"
	"heddle/score/fretboard"
	"heddle/score/internal/examples"
	"heddle/score/paper"
	"heddle/score/strip"
	"heddle/score/surface"
)

var update = flag.Bool("update", false, "write the golden pictures again; look at each of them afterwards")

// goldenNecks are the cases whose neck has a picture of its own.
var goldenNecks = map[string]bool{"left-handed-dark": true, "four-scales-over-changes": true}

// goldenNotes is how many notes of a case are drawn: half a bar, so that a
// change can be read. longerGoldens show beams and tuplets on both sides of bar
// lines and of a line break.
const goldenNotes = 4

var longerGoldens = map[string]int{
	"line-break": 18, "six-eight": 14, "odd-durations": 13, "sixteenth-triplets-double-accidentals": 12,
}

func TestGoldenPictures(t *testing.T) {
	cases := examples.Cases(t)
	if len(cases) < 12 {
		t.Fatalf("only %d hard cases", len(cases))
	}
	for _, c := range cases {
		notes := min(cmp.Or(longerGoldens[c.Name], goldenNotes), len(c.Exercise.Notes))
		c.Exercise.Notes = c.Exercise.Notes[:notes]
		c.Exercise.Length = c.Exercise.Notes[notes-1].End()
		golden(t, c.Name, score.Sheet(c.Exercise, score.Options{Theme: c.Theme, Width: c.Width, Repeat: c.Repeat}), surface.WritePageSVG)
		if goldenNecks[c.Name] {
			golden(t, c.Name+"-neck", fretboard.Draw(c.Exercise, fretboard.Options{Theme: c.Theme, Width: c.Width}), surface.WritePageSVG)
		}
	}
	worked := examples.Worked(t)
	worked.Notes = worked.Notes[:goldenNotes]
	worked.Length = worked.Notes[goldenNotes-1].End()
	golden(t, "worked-example-rows", score.Sheet(worked, score.Options{ByRow: true}), surface.WritePageSVG)
	golden(t, "worked-example-strip", strip.Draw(worked, strip.Options{ByRow: true}), surface.WritePageSVG)
	poster, err := paper.Poster(worked, paper.Options{Title: "Out and back in G minor"})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "worked-example-file", poster, surface.WriteSVG)
}

// golden compares what the writer makes of a drawing with the picture in testdata; a missing picture
// fails.
func golden(t *testing.T, name string, d surface.Drawing, write func(io.Writer, surface.Drawing) error) {
	t.Helper()
	var got bytes.Buffer
	if err := write(&got, d); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("testdata", "golden", name+".svg")
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("%v; go test ./score -run Golden -update writes it", err)
		return
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("%s has changed: go test ./score -run Golden -update, then look at it", file)
	}
}
