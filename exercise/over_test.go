package exercise_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/pitch"
)

func over(t testing.TB, s exercise.Spec, types ...string) []exercise.Overlay {
	t.Helper()
	overlays, err := exercise.Over(s, types)
	if err != nil {
		t.Fatal(err)
	}
	return overlays
}

func TestOverRanksTheTwelveFromInsideToOutside(t *testing.T) {
	for _, symbol := range []string{"Gm7", "A7", "Bbmaj7", "F#m7b5", "G7#9", "C5", "Esus4"} {
		for _, o := range over(t, exercise.Spec{Chord: symbol}, "minor pentatonic", "dorian", "whole tone", "1 b3 4 #5 b7") {
			roots := map[int]bool{}
			for i, r := range o.Rows {
				roots[r.Scale.Root.Class()] = true
				if len(r.Degrees) != len(r.Scale.Notes) || len(r.Functions) != len(r.Scale.Notes) {
					t.Errorf("%s %s: %d notes, %d degrees, %d functions", symbol, r.Scale.Name(), len(r.Scale.Notes), len(r.Degrees), len(r.Functions))
				}
				if got := len(o.Home.Notes) + len(r.Scale.Notes) - r.Shared; got != r.Collection.Cardinality() {
					t.Errorf("%s %s: %d notes with home, want %d", symbol, r.Scale.Name(), r.Collection.Cardinality(), got)
				}
				if i == 0 {
					continue
				}
				before := o.Rows[i-1]
				a := fmt.Sprintf("%02d %02d %09.6f", before.Count(pitch.Outside), before.Count(pitch.Avoid), before.Roughness)
				b := fmt.Sprintf("%02d %02d %09.6f", r.Count(pitch.Outside), r.Count(pitch.Avoid), r.Roughness)
				if a > b {
					t.Errorf("%s: %s (%s) before %s (%s)", symbol, before.Scale.Name(), a, r.Scale.Name(), b)
				}
			}
			if len(roots) != 12 {
				t.Errorf("%s: %d roots", symbol, len(roots))
			}
		}
	}
}

// The degrees of E♭ minor pentatonic over A7 are computed from the intervals; that a
// major seventh over a dominant is outside is common practice.
func TestOverSaysWhatTheNotesAreToTheChord(t *testing.T) {
	o := over(t, exercise.Spec{Chord: "A7", Home: "A mixolydian"}, "minor pentatonic")[0]
	for _, r := range o.Rows {
		if r.Interval != "tritone" {
			continue
		}
		var degrees []string
		for _, d := range r.Degrees {
			degrees = append(degrees, d.String())
		}
		got := fmt.Sprint(strings.Join(degrees, " "), ", ", r.Count(pitch.Outside), " outside")
		if want := "#11 13 7 b9 3, 1 outside"; got != want {
			t.Errorf("got %s, want %s", got, want)
		}
		return
	}
	t.Error("no row a tritone away")
}

// Two minor pentatonics a semitone apart are 10-5 (Forte 1973), and on the guitar the
// hand moves by one fret: at fret 10 that is 648·2^(−10/12)·(1 − 2^(−1/12)) = 20.4 mm.
func TestOverSaysWhatTheScalesMakeAndHowFarTheHandMoves(t *testing.T) {
	o := over(t, exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Fret: 10})[0]
	for _, r := range o.Rows {
		if r.Interval != "semitone up" {
			continue
		}
		data, err := json.Marshal(r.Near.ShiftFrets)
		if err != nil || string(data) != "1" || r.Collection.Forte != "10-5" || r.FromChord.String() != "b9" {
			t.Errorf("%s frets, %s, %s", data, r.Collection.Forte, r.FromChord)
		}
		if mm := r.Near.ShiftMM; mm < 20 || mm > 20.8 {
			t.Errorf("the hand moves %.2f mm", mm)
		}
		return
	}
	t.Error("no row a semitone up")
}

func TestOverRefusesWhatItCannotRead(t *testing.T) {
	for _, tt := range []struct {
		spec  exercise.Spec
		scale string
		field string
	}{
		{exercise.Spec{Chord: "H7"}, "", "chord"},
		{exercise.Spec{}, "", "home"},
		{exercise.Spec{Chord: "Gm7"}, "pentatonik", "scale"},
		{exercise.Spec{Chord: "Gm7", Home: "G"}, "", "home"},
	} {
		var types []string
		if tt.scale != "" {
			types = []string{tt.scale}
		}
		_, err := exercise.Over(tt.spec, types)
		var input *pitch.InputError
		if !asInput(err, &input) || input.What != tt.field {
			t.Errorf("%+v %q: %v does not name %s", tt.spec, tt.scale, err, tt.field)
		}
	}
}

func BenchmarkOver(b *testing.B) {
	for b.Loop() {
		if _, err := exercise.Over(exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic"}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
