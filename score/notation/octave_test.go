package notation

import (
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A line high on the neck, and one that only touches the ledger lines.
func TestOctaveLinesBeginAndEndWithTheHighNotes(t *testing.T) {
	for _, row := range []struct{ notes, want string }{
		{"F5 G5 A5 G5 E5 D5 C5", "^^^^..."},
		{"C5 F5 G5 C5 F5 G5 C5", "......."},
		{"C5 D5 F5 G5 E5 F5 G5 A5 D5", "..^^^^^^."}, // one lower note between does not end it
		{"F5 F5 F5 C5 C5 C5 F5 F5", "^^^....."},
		{"E5 E5 E5 E5", "...."}, // on the third ledger line, not above it
	} {
		ex := &exercise.Exercise{Instrument: neck.Guitar()}
		for word := range strings.FieldsSeq(row.notes) {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			ex.Notes = append(ex.Notes, exercise.Note{Note: line.Note{Pitch: p}})
		}
		got := ""
		for _, under := range Octaves(ex) {
			got += map[bool]string{true: "^", false: "."}[under]
		}
		if got != row.want {
			t.Errorf("%s: %s, want %s", row.notes, got, row.want)
		}
	}
}
