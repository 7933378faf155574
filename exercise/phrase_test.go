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
	"heddle/line"
	"heddle/phrase"
	"heddle/pitch"
)

// randomPhrase draws a request for a phrase.
func randomPhrase(r *rand.Rand) exercise.Spec {
	pick := func(values ...string) string { return values[r.IntN(len(values))] }
	s := exercise.Spec{
		Form: "phrase", Home: pick("C", "F#", "G", "Bb", "A") + " " + pick("minor pentatonic", "minor blues", "dorian", "mixolydian", "major", "major pentatonic"),
		Superimpose: []string{pick("semitone up", "semitone down", "tritone", "whole tone up", "minor third up", "major third down")},
		Meter:       pick("4/4", "4/4", "4/4", "3/4", "6/8", "12/8", "5/4", "7/8", "2/4", "7/4"),
		Value:       pick("eighth", "eighth", "sixteenth"),
		Busy:        pick("sparse", "medium", "busy"), Direction: pick("down", "up", "down-up"), Follow: pick("first", "last"),
		Bars: 3 + r.IntN(6), Choice: 1 + r.IntN(3), Fret: 1 + r.IntN(12), Land: pick("", "third", "root", "third,fifth"),
	}
	if s.Meter == "4/4" || s.Meter == "3/4" {
		s.Value = pick("eighth", "eighth", "sixteenth", "eighth-triplet", "quintuplet", "sixteenth-triplet")
	}
	groups := 2 + r.IntN(3)
	s.Groups = []int{groups, groups}
	if s.Dips = r.IntN(4); s.Dips == 0 || s.Bars < 4 {
		s.Dips = []int{exercise.NoDips, 1}[r.IntN(2)]
	}
	if r.IntN(4) == 0 {
		s.Home, s.Changes = "C major", "Dm7 | G7 | Cmaj7 | Am7"
	}
	return s
}

func TestEveryPhraseKeepsTheRules(t *testing.T) {
	count := 15
	if need.All() {
		count = 2000
	}
	random := rand.New(rand.NewPCG(5, 6))
	built := 0
	for range count {
		spec := randomPhrase(random)
		ex, err := exercise.Build(spec)
		if err != nil {
			var input *pitch.InputError
			if !asInput(err, &input) || !slices.Contains([]string{"dips", "choice", "superimpose", "land"}, input.What) {
				t.Errorf("%s: %v", spec.Query(), err)
			}
			continue
		}
		built++
		for _, broken := range brokenRules(ex) {
			t.Errorf("%s: %s\n%s", spec.Query(), broken, groupsOf(ex))
		}
	}
	if built < count/3 {
		t.Errorf("only %d of %d requests have a phrase", built, count)
	}
}

// brokenRules lists the rules of a phrase that one does not keep.
func brokenRules(ex *exercise.Exercise) (broken []string) {
	say := func(format string, arguments ...any) { broken = append(broken, fmt.Sprintf(format, arguments...)) }
	bar, notes := ex.Rhythm.Meter.Bar(), ex.Notes
	from, to := line.PulseOf(ex.Rhythm.Meter).Span(0)
	beat := to - from
	last := notes[len(notes)-1]
	if notes[0].Start >= bar || notes[0].Start < 0 {
		say("it starts at %v", notes[0].Start)
	}
	if last.Start != ex.Length-bar || last.Role != line.LandingRole {
		say("it ends at %v", last.Start)
	}
	for at := line.Beat(0); at+2*bar <= ex.Length; at += bar {
		if !restsWithin(notes, at, at+2*bar, beat) {
			say("no rest in the two bars from %v", at)
		}
	}
	top, tops := 0, 0
	small := 0
	for i, n := range notes {
		key := n.Pitch.MIDI()
		switch {
		case key > top:
			top, tops = key, 1
		case key == top:
			tops++
		}
		if i == 0 {
			continue
		}
		step := key - notes[i-1].Pitch.MIDI()
		if max(step, -step) <= 4 {
			small++
		}
		if i > 1 {
			before := notes[i-1].Pitch.MIDI() - notes[i-2].Pitch.MIDI()
			if step == 0 && before == 0 {
				say("note %d is the third in a row", i+1)
			}
			if max(before, -before) > 5 && (max(step, -step) > 2 || step*before >= 0) {
				say("a leap of %d before note %d is followed by %d", before, i+1, step)
			}
		}
		if n.Start < notes[i-1].End() {
			say("note %d overlaps", i+1)
		}
	}
	if tops != 1 {
		say("the highest note is played %d times", tops)
	}
	if 2*small < len(notes)-1 {
		say("%d of %d steps are a third or less", small, len(notes)-1)
	}
	broken = append(broken, brokenInside(ex)...)
	return append(broken, brokenDips(ex, beat)...)
}

func restsWithin(notes []exercise.Note, from, to, least line.Beat) bool {
	silent := from
	for _, n := range notes {
		if n.Start >= to {
			break
		}
		if n.End() > from {
			if n.Start-silent >= least {
				return true
			}
			silent = n.End()
		}
	}
	return to-silent >= least
}

func brokenInside(ex *exercise.Exercise) (broken []string) {
	strong := line.PulseOf(ex.Rhythm.Meter).Parts()
	bar := ex.Rhythm.Meter.Bar()
	for i, n := range ex.Notes {
		if ex.ScaleNumber(n.Scale) > 0 {
			continue
		}
		if n.Scale == line.Chromatic && n.Function != pitch.ChordTone {
			broken = append(broken, fmt.Sprintf("note %d, %v, is neither in home nor in the chord", i+1, n.Pitch))
		}
		if n.Duration >= line.Quarter && slices.Contains(strong, n.Start%bar) && (n.Function == pitch.Avoid || n.Function == pitch.Outside) {
			broken = append(broken, fmt.Sprintf("note %d, %v, is long, on a strong beat and %s", i+1, n.Pitch, n.Function))
		}
	}
	return broken
}

func brokenDips(ex *exercise.Exercise, beat line.Beat) (broken []string) {
	say := func(format string, arguments ...any) { broken = append(broken, fmt.Sprintf(format, arguments...)) }
	bar, notes := ex.Rhythm.Meter.Bar(), ex.Notes
	outside := func(i int) bool { return ex.ScaleNumber(notes[i].Scale) > 0 }
	dips, end := 0, line.Beat(-1)
	for i := 0; i < len(notes); i++ {
		if !outside(i) {
			continue
		}
		first := i
		for i+1 < len(notes) && outside(i+1) {
			i++
		}
		if first == 0 || i > len(notes)-4 {
			say("the dip at note %d has not enough inside around it", first+1)
			return broken
		}
		dips++
		into := notes[first].Pitch.MIDI() - notes[first-1].Pitch.MIDI()
		out := notes[i+1].Pitch.MIDI() - notes[i].Pitch.MIDI()
		size := ex.Spec.Groups[1]
		switch start := notes[first].Start; {
		case start%bar == 0 || start < bar || notes[i].End() > ex.Length-bar:
			say("a dip starts at %v", start)
		case into == 0 || max(into, -into) > 4:
			say("a step of %d leads into the dip at %v", into, start)
		case out == 0 || max(out, -out) > 2 || notes[i+1].Function != pitch.ChordTone || notes[i+1].Scale == line.Chromatic || notes[i+1].Start-notes[i].End() > beat:
			say("the dip at %v is left by %d to %v, a %s", start, out, notes[i+1].Pitch, notes[i+1].Function)
		case i-first+1 != size && i-first+1 != 2*size:
			say("the dip at %v has %d notes", start, i-first+1)
		case end >= 0 && start-end < bar:
			say("the dip at %v is %v after another", start, start-end)
		}
		end = notes[i].End()
	}
	if dips != max(0, ex.Spec.Dips) {
		say("%d dips, want %d", dips, ex.Spec.Dips)
	}
	landing := notes[len(notes)-1].Pitch.MIDI() - notes[len(notes)-2].Pitch.MIDI()
	if landing == 0 || max(landing, -landing) > 2 || notes[len(notes)-1].Function != pitch.ChordTone {
		say("it lands by %d on a %s", landing, notes[len(notes)-1].Function)
	}
	return broken
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
		{"form: solo", "form"}, {"form: phrase\nmeter: 11/8", "meter"}, {"form: phrase\nbars: 1", "bars"}, {"form: phrase\nbusy: very", "busy"},
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
