package exercise_test

import (
	"testing"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// given makes a line of eighths from pitches.
func given(t *testing.T, pitches ...string) exercise.Given {
	t.Helper()
	g := exercise.Given{Title: "a line", Rhythm: line.Rhythm{Meter: line.Meter{Beats: 4, Unit: 4}}}
	for i, text := range pitches {
		p, err := pitch.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		g.Notes = append(g.Notes, exercise.GivenNote{Note: line.Note{Pitch: p, Start: line.Beat(i) * line.Quarter / 2, Duration: line.Quarter / 2}})
	}
	return g
}

func TestAnAdoptedLineIsNamedAndFingered(t *testing.T) {
	g := given(t, "G4", "Bb4", "B4", "C5", "D5", "F5", "G5", "A4", "G4")
	ex, err := exercise.Adopt(g, exercise.Spec{Chord: "Gm7"})
	if err != nil {
		t.Fatal(err)
	}
	if got := ex.Spec.Home; got != "G dorian" && got != "G minor" && got != "G minor pentatonic" {
		t.Errorf("home is %s", got)
	}
	for i, n := range ex.Notes {
		if n.Pitch != g.Notes[i].Pitch {
			t.Errorf("note %d was %v and became %v", i, g.Notes[i].Pitch, n.Pitch)
		}
		if ex.Instrument.MIDI(n.Spot) != n.Pitch.MIDI() {
			t.Errorf("note %d is put where it does not sound", i)
		}
	}
	if n := ex.Notes[2]; n.Degree.String() != "3" || n.Function != pitch.Outside || n.Scale != line.Chromatic {
		t.Errorf("B over Gm7 is %+v", n)
	}
}

func TestAnAdoptedLineKeepsTheFingeringItCameWith(t *testing.T) {
	g := given(t, "A3", "C4", "D4")
	for i, fret := range []int{7, 10, 12} {
		g.Notes[i].Fingering = finger.Fingering{Spot: neck.Spot{String: 4, Fret: fret}, Finger: []int{1, 4, 4}[i]}
	}
	ex, err := exercise.Adopt(g, exercise.Spec{Home: "A minor pentatonic"})
	if err != nil {
		t.Fatal(err)
	}
	for i, n := range ex.Notes {
		if n.Spot != g.Notes[i].Spot || n.Finger != g.Notes[i].Finger {
			t.Errorf("note %d: got string %d fret %d finger %d", i, n.String, n.Fret, n.Finger)
		}
	}
}

func TestAdoptRefusesWhatItCannotDo(t *testing.T) {
	for _, tt := range []struct {
		field string
		given exercise.Given
		spec  exercise.Spec
	}{
		{"line", exercise.Given{}, exercise.Spec{}},
		{"groups", given(t, "G4"), exercise.Spec{Groups: []int{3}}},
		{"home", given(t, "G4"), exercise.Spec{Home: "G nonsense"}},
	} {
		_, err := exercise.Adopt(tt.given, tt.spec)
		var input *pitch.InputError
		if !asInput(err, &input) || input.What != tt.field {
			t.Errorf("want an error about %s, got %v", tt.field, err)
		}
	}
}
