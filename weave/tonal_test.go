package weave_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

// rising returns named notes as a rising line of eighths from octave 3.
func rising(t *testing.T, names string) []line.Note {
	t.Helper()
	var notes []line.Note
	key := 47
	for i, word := range strings.Fields(names) {
		name, err := pitch.ParseName(word)
		if err != nil {
			t.Fatal(err)
		}
		key++
		for key%12 != name.Class() {
			key++
		}
		notes = append(notes, line.Note{Pitch: pitch.Named(name, key), Start: line.Beat(i) * line.Quarter / 2, Duration: line.Quarter / 2})
	}
	return notes
}

// The library tonal lists every scale that has a fragment's notes; see
// testdata/tonal.mjs for the version. A fragment of a scale must be read as one scale,
// and as one of these.
func TestFragmentsAreReadAsScalesThatTonalFinds(t *testing.T) {
	text, err := os.ReadFile("testdata/tonal.json")
	if err != nil {
		t.Fatal(err)
	}
	var stored struct {
		Fragments []struct {
			Scale, Notes string
			Found        []string
		}
	}
	if err := json.Unmarshal(text, &stored); err != nil {
		t.Fatal(err)
	}
	if len(stored.Fragments) < 100 {
		t.Fatalf("%d fragments", len(stored.Fragments))
	}
	for _, f := range stored.Fragments {
		r := weave.Read(weave.Request{Notes: rising(t, f.Notes)})[0]
		if len(r.Segments) != 1 {
			t.Errorf("%s, %s: %d segments", f.Scale, f.Notes, len(r.Segments))
			continue
		}
		found := false
		for _, notes := range f.Found {
			found = found || classes(t, strings.Fields(notes)) == classesOf(r.Segments[0].Scale)
		}
		if !found {
			t.Errorf("%s, %s: read as %s, which tonal does not find", f.Scale, f.Notes, r.Segments[0].Scale.Name())
		}
	}
}

func classes(t *testing.T, names []string) (set int) {
	t.Helper()
	for _, word := range names {
		n, err := pitch.ParseName(word)
		if err != nil {
			t.Fatal(err)
		}
		set |= 1 << n.Class()
	}
	return set
}

func classesOf(s pitch.Scale) (set int) {
	for _, n := range s.Notes {
		set |= 1 << n.Class()
	}
	return set
}
