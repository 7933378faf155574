package exercise_test

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/pitch"
)

// Down stays down, in the sentence, the canonical spec and the JSON, and the
// canonical spec builds the same notes.
func TestLawTheWordingOfASuperimposedScaleIsKept(t *testing.T) {
	types := pitch.Types()
	rapid.Check(t, func(t *rapid.T) {
		root := rapid.SampledFrom(strings.Fields("C C# Db D Eb E F F# Gb G Ab A Bb B")).Draw(t, "root")
		size := rapid.SampledFrom([]string{"semitone", "whole tone", "minor third", "major third", "fourth", "fifth", "minor sixth", "major seventh", "octave"}).Draw(t, "size")
		direction := rapid.SampledFrom([]string{"up", "down"}).Draw(t, "direction")
		spec := exercise.Spec{
			Home:        root + " " + rapid.SampledFrom(types).Draw(t, "type").Name,
			Superimpose: []string{"a " + size + " " + direction},
			Groups:      []int{2, 2},
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			return // no placements that one hand joins
		}
		want := size + " " + direction
		if got := ex.Spec.Superimpose[0]; got != want {
			t.Fatalf("%s: the canonical spec has %q, want %q", spec.Home, got, want)
		}
		text, err := json.Marshal(ex)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(ex.Sentence, want) || !strings.HasSuffix(ex.Scales[1].Away, want) || !strings.Contains(string(text), `"away":"a`) {
			t.Fatalf("%s, %s: %s", spec.Home, want, ex.Sentence)
		}
		again, err := exercise.Build(ex.Spec)
		if err != nil || again.Sentence != ex.Sentence || len(again.Notes) != len(ex.Notes) {
			t.Fatalf("%s: the canonical spec builds %v, %v", ex.Sentence, again, err)
		}
		for i := range ex.Notes {
			if again.Notes[i] != ex.Notes[i] {
				t.Fatalf("%s: note %d is %+v, then %+v", ex.Sentence, i, ex.Notes[i], again.Notes[i])
			}
		}
	})
}

func TestTheSentenceSaysASuperimposedScaleAsItWasGiven(t *testing.T) {
	for given, want := range map[string]string{
		"half step below":                 "with the same scale a semitone down,",
		"tritone":                         "with the same scale a tritone away,",
		"b5":                              "with the same scale on the ♭5,",
		"C# minor pentatonic":             "with C♯ minor pentatonic,",
		"F#":                              "with F♯ minor pentatonic,",
		"minor third up major pent":       "with the major pentatonic a minor third up,",
		"b9 dorian b2":                    "with the dorian ♭2 on the ♭9,",
		"Ab dorian b2":                    "with A♭ dorian ♭2,",
		"semitone down | whole tone up":   "with F♯ minor pentatonic | A minor pentatonic,",
		"semitone down | a semitone down": "with the same scale a semitone down,",
	} {
		spec := exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{given}}
		if strings.Contains(given, "|") {
			spec.Changes = "Gm7 | C7"
		}
		ex, err := exercise.Build(spec)
		if err != nil || !strings.Contains(ex.Sentence, want) {
			t.Errorf("%s: %v, %v", given, err, ex)
		}
	}
}

// A German reader types As for A♭, B for B♭ and H for B; distances stay as they are.
func TestRootsAreReadInTheReadersNaming(t *testing.T) {
	f, err := exercise.FieldNamed("superimpose")
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"As moll": "As moll", "As minor pentatonic": "Ab minor pentatonic", "Es": "Eb", "B": "Bb", "Hm pent": "Bm pent", "H major": "B major",
		"a semitone up": "a semitone up", "a whole tone": "a whole tone", "b5": "b5", "b7": "b7", "b3 major triad": "b3 major triad", "tritone": "tritone", "fourth up": "fourth up",
	} {
		if got := f.Rename(typed, pitch.German, pitch.English); got != want {
			t.Errorf("%q is %q in English, want %q", typed, got, want)
		}
	}
	changes, err := exercise.FieldNamed("changes")
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"blues in H": "blues in B", "rhythm changes in B": "rhythm changes in Bb", "Hm7 E7, | B7(b9,#11) / Asm7": "Bm7 E7, | Bb7(b9,#11) / Abm7",
	} {
		if got := changes.Rename(typed, pitch.German, pitch.English); got != want {
			t.Errorf("%q is %q in English, want %q", typed, got, want)
		}
	}
}
