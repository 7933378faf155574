package finger_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
)

// at reads spots written as string/fret: "6/5 6/8".
func at(t testing.TB, text string) []neck.Spot {
	t.Helper()
	var spots []neck.Spot
	for word := range strings.FieldsSeq(text) {
		var s neck.Spot
		if _, err := fmt.Sscanf(word, "%d/%d", &s.String, &s.Fret); err != nil {
			t.Fatalf("spot %q: %v", word, err)
		}
		spots = append(spots, s)
	}
	return spots
}

// boxes reads the frets of each string from the lowest up, strings parted
// by a comma: "5 8, 5 7".
func boxes(t testing.TB, in neck.Instrument, text string) []neck.Spot {
	t.Helper()
	var spots []neck.Spot
	for i, frets := range strings.Split(text, ",") {
		for word := range strings.FieldsSeq(frets) {
			fret, err := strconv.Atoi(word)
			if err != nil {
				t.Fatal(err)
			}
			spots = append(spots, neck.Spot{String: in.Strings() - i, Fret: fret})
		}
	}
	return spots
}

// eighths makes a line of eighths, each note held at its one spot.
func eighths(in neck.Instrument, spots []neck.Spot) []finger.Note {
	notes := make([]finger.Note, len(spots))
	for i, s := range spots {
		notes[i] = finger.Note{
			Start:     line.Beat(i) * line.Quarter / 2,
			Duration:  line.Quarter / 2,
			MIDI:      in.MIDI(s),
			Spots:     []neck.Spot{s},
			Preferred: s,
		}
	}
	return notes
}

// grouped puts every n notes in a group.
func grouped(notes []finger.Note, n int) []finger.Note {
	for i := range notes {
		notes[i].Group = i / n
	}
	return notes
}

// everywhere makes a line of eighths that may be played at any spot of the
// neck, string 1 first.
func everywhere(in neck.Instrument, keys ...int) []finger.Note {
	notes := make([]finger.Note, len(keys))
	for i, key := range keys {
		notes[i] = finger.Note{Start: line.Beat(i) * line.Quarter / 2, Duration: line.Quarter / 2, MIDI: key}
		for s := 1; s <= in.Strings(); s++ {
			spot := neck.Spot{String: s}
			if spot.Fret = key - in.MIDI(spot); spot.Fret >= 0 && spot.Fret <= in.LastFret() {
				notes[i].Spots = append(notes[i].Spots, spot)
			}
		}
	}
	return notes
}

func assign(t testing.TB, in neck.Instrument, notes []finger.Note, technique finger.Technique) ([]finger.Fingering, finger.Hand) {
	t.Helper()
	played, hand, err := finger.Assign(in, notes, technique)
	if err != nil {
		t.Fatal(err)
	}
	if len(played) != len(notes) {
		t.Fatalf("%d fingerings for %d notes", len(played), len(notes))
	}
	return played, hand
}

// fingersOf writes the fingers, those on one string together: "1 4, 1 3".
func fingersOf(played []finger.Fingering) string {
	var b strings.Builder
	for i, f := range played {
		if i > 0 {
			if f.String != played[i-1].String {
				b.WriteByte(',')
			}
			b.WriteByte(' ')
		}
		b.WriteString(strconv.Itoa(f.Finger))
	}
	return b.String()
}

// strokesOf writes the strokes as letters: d u, h p s for the slurs.
func strokesOf(played []finger.Fingering) string {
	var b strings.Builder
	for i, f := range played {
		if i > 0 {
			if f.String != played[i-1].String {
				b.WriteByte(',')
			}
			b.WriteByte(' ')
		}
		b.WriteByte(f.Stroke[0])
	}
	return b.String()
}
