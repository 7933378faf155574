package musicxml

import (
	"fmt"
	"strings"
	"testing"

	"heddle/pitch"
)

// toldKind writes a kind and its changes as MusicXML states them.
func toldKind(degrees []pitch.Degree) string {
	kind, changes := kindOf(degrees)
	words := []string{kind.Name}
	for _, c := range changes {
		alter := c.Alter - naturalAlter(kind, c)
		if c.Type == "subtract" {
			alter = 0
		}
		words = append(words, fmt.Sprintf("%s %d %+d", c.Type, c.Number, alter))
	}
	return strings.Join(words, ", ")
}

// The kinds are MusicXML 4.0's; that an added seventh is counted from the
// minor one, and an altered degree from the kind's own, is its definition of
// degree-alter.
func TestChordsBecomeKindsAndDegrees(t *testing.T) {
	for symbol, want := range map[string]string{
		"G":         "major",
		"Gm":        "minor",
		"Gm7":       "minor-seventh",
		"G-7":       "minor-seventh",
		"Gmaj7":     "major-seventh",
		"G7":        "dominant",
		"Gø":        "half-diminished",
		"Gdim7":     "diminished-seventh",
		"G7#9":      "dominant, add 9 +1",
		"G7b9":      "dominant, add 9 -1",
		"G7b5":      "dominant, alter 5 -1",
		"Gmaj7#11":  "major-seventh, add 11 +1",
		"G9":        "dominant-ninth",
		"G13":       "dominant-13th, subtract 11 +0",
		"Gm(maj7)":  "major-minor",
		"Gm6":       "minor-sixth",
		"G5":        "power",
		"Gsus4":     "suspended-fourth",
		"G7sus4":    "suspended-fourth, add 7 +0",
		"G6/9":      "major-sixth, add 9 +0",
		"Gadd9":     "major, add 9 +0",
		"Gmaj7#5":   "augmented, add 7 +1",
		"G7(b9,#9)": "dominant, add 9 -1, add 9 +1",
	} {
		c, err := pitch.ParseChord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		if got := toldKind(c.Degrees); got != want {
			t.Errorf("%s is %s, want %s", symbol, got, want)
		}
	}
}

// Every kind in its common way of writing is the chord that MusicXML means.
func TestSuffixesReadAsTheirKinds(t *testing.T) {
	for _, kind := range harmonyKinds {
		c, err := pitch.ParseChord("C" + kind.Suffix)
		if err != nil {
			t.Errorf("%s: %v", kind.Name, err)
			continue
		}
		got, changes := kindOf(c.Degrees)
		if got.Name != kind.Name {
			t.Errorf("C%s is %s with %v, want %s", kind.Suffix, got.Name, changes, kind.Name)
		}
	}
}
