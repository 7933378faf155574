package exercise_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/internal/need"
	"heddle/internal/phraserules"
	"heddle/line"
	"heddle/phrase"
	"heddle/pitch"
)

func TestEveryPhraseKeepsTheRules(t *testing.T) {
	count := 15
	if need.All() {
		count = 2000
	}
	random := rand.New(rand.NewPCG(5, 6))
	built := 0
	for range count {
		spec := phraserules.Request(random)
		ex, err := exercise.Build(spec)
		if err != nil {
			var input *pitch.InputError
			if !asInput(err, &input) || !slices.Contains([]string{"dips", "choice", "superimpose", "land"}, input.What) {
				t.Errorf("%s: %v", spec.Query(), err)
			}
			continue
		}
		built++
		for _, broken := range phraserules.Broken(ex) {
			t.Errorf("%s: %s\n%s", spec.Query(), broken, groupsOf(ex))
		}
	}
	if built < count/3 {
		t.Errorf("only %d of %d requests have a phrase", built, count)
	}
}

const vampPhrase = "form: phrase\nhome: G minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 10\n"

func TestFivePhrasesDiffer(t *testing.T) {
	for _, text := range []string{vampPhrase, vampPhrase + "busy: sparse\n", vampPhrase + "busy: busy\n", vampPhrase + "dips: 0\n", vampPhrase + "bars: 8\ndips: 2\n"} {
		var lines [][]line.Note
		for choice := 1; choice <= 5; choice++ {
			ex := build(t, text+fmt.Sprintf("choice: %d\n", choice))
			notes := make([]line.Note, len(ex.Notes))
			for i, n := range ex.Notes {
				notes[i] = n.Note
			}
			for i, other := range lines {
				if d := phrase.Difference(notes, other); d < 0.3 {
					t.Errorf("%s: choices %d and %d differ in %.0f %%", text, i+1, choice, 100*d)
				}
			}
			lines = append(lines, notes)
		}
	}
}

func TestAPhrasesDipsAreTheCellsGiven(t *testing.T) {
	cell := "home=A+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=5&cut=4-6"
	ex := build(t, "form: phrase\nhome: G minor pentatonic\nsuperimpose: semitone up\nfret: 10\ncell: "+cell+"\n")
	source := build(t, "home: A minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 5\ncut: 4-6\n")
	want := source.Notes[1].Pitch.MIDI() - source.Notes[0].Pitch.MIDI()
	for i, n := range ex.Notes {
		if ex.ScaleNumber(n.Scale) > 0 {
			if got := ex.Notes[i+1].Pitch.MIDI() - n.Pitch.MIDI(); got != want || len(source.Notes) != 3 || ex.ScaleNumber(ex.Notes[i+2].Scale) != 1 {
				t.Errorf("the dip begins with a step of %d, the cell with %d: %s", got, want, groupsOf(ex))
			}
			break
		}
	}
	if again := build(t, ex.Spec.Text()); groupsOf(again) != groupsOf(ex) {
		t.Error("the canonical spec builds another phrase")
	}
}

func TestAPhraseIsSaidAndComesBackTheSame(t *testing.T) {
	ex := build(t, vampPhrase+"dips: 1\nchoice: 2\n")
	for _, want := range []string{"play a phrase in G minor pentatonic", "with one dip into the same scale a semitone up", "for four bars"} {
		if !strings.Contains(ex.Sentence, want) {
			t.Errorf("%q is not in %s", want, ex.Sentence)
		}
	}
	again := build(t, ex.Spec.Text())
	a, _ := json.Marshal(ex)
	b, _ := json.Marshal(again)
	if string(a) != string(b) {
		t.Error("the canonical spec builds another phrase")
	}
}

func TestBadPhrasesAreRefused(t *testing.T) {
	for _, tt := range []struct{ text, field string }{
		{"form: solo", "form"}, {"form: phrase\nmeter: 11/8", "meter"}, {"form: phrase\nbars: 1", "bars"}, {"form: phrase\nbars: 12\nmeter: 7/4\nvalue: sixteenth-triplet", "bars"}, {"form: phrase\nbusy: very", "busy"},
		{"form: phrase\nmeter: 6/8\nvalue: quintuplet", "value"}, {"form: phrase\ndips: 9", "dips"}, {"form: phrase\nsuperimpose: semitone up\ndips: 4\nbars: 3", "dips"},
		{"form: phrase\ncell: thursday", "cell"}, {"form: phrase\ncell: home=G+minor+pentatonic", "cell"}, {"form: phrase\nchoice: 20\nbars: 2", "choice"},
	} {
		spec, err := exercise.ParseText("home: G minor pentatonic\n" + tt.text)
		if err == nil {
			_, err = exercise.Build(spec)
		}
		var input *pitch.InputError
		if !asInput(err, &input) || input.What != tt.field {
			t.Errorf("%q: %v does not name %s", tt.text, err, tt.field)
		}
	}
}

func BenchmarkFivePhrases(b *testing.B) {
	for _, busy := range []string{"sparse", "medium", "busy"} {
		b.Run(busy, func(b *testing.B) {
			spec := exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Form: "phrase", Busy: busy, Choice: 5}
			for b.Loop() {
				if _, err := exercise.Build(spec); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
