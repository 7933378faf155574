package exercise_test

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/pitch"
)

func TestAScaleThatAddsNoNoteIsSaidSo(t *testing.T) {
	for _, tt := range []struct {
		home   string
		laid   []string
		remark string
	}{
		{"A octatonic half-whole", []string{"minor third up"}, "C octatonic half-whole, a minor third up, adds no note to A octatonic half-whole."},
		{"C whole tone", []string{"whole tone up"}, "D whole tone, a whole tone up, adds no note to C whole tone."},
		{"G minor pentatonic", []string{"unison"}, "G minor pentatonic, in unison, adds no note to the same scale before it."},
		{"G minor pentatonic", []string{"octave up"}, "G minor pentatonic, an octave up, adds no note to the same scale before it."},
		{"G minor pentatonic", []string{"tritone", "tritone"}, "C♯ minor pentatonic, a tritone away, adds no note to the same scale before it."},
		{"G dorian", []string{"Gm triad"}, "G minor triad adds no note to G dorian."},
		{"C major pentatonic", []string{"C 1 4 5 7", "C major"}, "C major adds no note to the scales before it."},
		{"G minor pentatonic", []string{"semitone up"}, ""},
		{"G minor pentatonic", nil, ""},
	} {
		ex, err := exercise.Build(exercise.Spec{Home: tt.home, Superimpose: tt.laid})
		if err != nil {
			t.Errorf("%s, %q: %v", tt.home, tt.laid, err)
			continue
		}
		if got := strings.Join(ex.Remarks, " "); got != tt.remark {
			t.Errorf("%s, %q: %q, want %q", tt.home, tt.laid, got, tt.remark)
		}
		if text, err := json.Marshal(ex); err != nil || !strings.Contains(string(text), `"remarks":[`) || !strings.Contains(string(text), tt.remark) {
			t.Errorf("%s, %q: the JSON has no remark, %v", tt.home, tt.laid, err)
		}
	}
}

// There is a remark for just those scales that leave the number of different notes
// as it was.
func TestLawARemarkMeansNothingAdded(t *testing.T) {
	types := pitch.Types()
	rapid.Check(t, func(t *rapid.T) {
		home := rapid.SampledFrom(strings.Fields("C Db D Eb E F F# G Ab A Bb B")).Draw(t, "root") + " " + rapid.SampledFrom(types).Draw(t, "type").Name
		laid := rapid.SampledFrom([]string{"unison", "semitone up", "whole tone up", "minor third up", "major third down", "tritone", "fourth up", "b5 major triad"}).Draw(t, "laid")
		alone, err := exercise.Build(exercise.Spec{Home: home})
		if err != nil {
			return
		}
		ex, err := exercise.Build(exercise.Spec{Home: home, Superimpose: []string{laid}})
		if err != nil {
			return // no placements that one hand joins
		}
		if added := ex.Collection.Cardinality() > alone.Collection.Cardinality(); added == (len(ex.Remarks) > 0) {
			t.Fatalf("%s with %s: %d notes and %d, %q", home, laid, alone.Collection.Cardinality(), ex.Collection.Cardinality(), ex.Remarks)
		}
	})
}
