package notation

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/internal/examples"
)

// played lays notes of one pitch over time: "480 480 r960 320" are lengths in
// Beats, r a rest.
func played(t testing.TB, meter line.Meter, start line.Beat, lengths string) *exercise.Exercise {
	t.Helper()
	ex := &exercise.Exercise{Instrument: neck.Guitar(), Rhythm: line.Rhythm{Meter: meter, Pickup: max(0, -start)}}
	at := start
	for word := range strings.FieldsSeq(lengths) {
		var n line.Beat
		silent := strings.HasPrefix(word, "r")
		if _, err := fmt.Sscan(strings.TrimPrefix(word, "r"), &n); err != nil {
			t.Fatal(err)
		}
		if !silent {
			ex.Notes = append(ex.Notes, exercise.Note{Note: line.Note{Pitch: pitch.Pitch{Octave: 4}, Start: at, Duration: n}})
		}
		at += n
	}
	ex.Length = at
	return ex
}

// written returns the bars as a musician would call them out: 4 a quarter, 8
// an eighth, (3: …) a triplet.
func written(ex *exercise.Exercise) string {
	var words []string
	for _, m := range Measures(ex) {
		for _, e := range m.Events {
			word := fmt.Sprint(1 << e.Value.Halvings)
			if e.Opens() {
				word = fmt.Sprintf("(%d:", e.Tuplet.Actual) + word
			}
			if e.Closes() {
				word += ")"
			}
			words = append(words, word)
		}
	}
	return strings.Join(words, " ")
}

// A played line lies a little beside the grid; what is written is the rhythm
// that was meant.
func TestPlayedLinesMoveToTheGrid(t *testing.T) {
	rows := []struct{ lengths, want string }{
		{"470 495 475 490 1910", "8 8 8 8 2"},
		{"310 330 315 965 1920", "(3:8 8 8) 4 2"},
		{"235 250 230 245 960 1920", "16 16 16 16 4 2"},
		{"120 120 240 160 160 160 960 1920", "32 32 16 (3:16 16 16) 4 2"}, // nothing to move
	}
	for _, row := range rows {
		if got := written(played(t, examples.FourFour, 0, row.lengths)); got != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.lengths, got, row.want)
		}
	}
}

// Whatever comes in, every bar is full, in order, and nothing is lost.
func TestEveryBarIsFull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		meter := rapid.SampledFrom([]line.Meter{{Beats: 4, Unit: 4}, {Beats: 3, Unit: 4}, {Beats: 5, Unit: 4}, {Beats: 6, Unit: 8}, {Beats: 7, Unit: 8}, {Beats: 2, Unit: 2}, {Beats: 9, Unit: 16}, {Beats: 1, Unit: 4}}).Draw(t, "meter")
		ex := &exercise.Exercise{Instrument: neck.Guitar(), Rhythm: line.Rhythm{Meter: meter}}
		at := line.Beat(rapid.IntRange(-2000, 500).Draw(t, "start"))
		for range rapid.IntRange(1, 20).Draw(t, "notes") {
			d := line.Beat(rapid.IntRange(-10, 3000).Draw(t, "duration"))
			ex.Notes = append(ex.Notes, exercise.Note{Note: line.Note{Pitch: pitch.Pitch{Octave: 4}, Start: at, Duration: d}})
			at += line.Beat(rapid.IntRange(1, 2500).Draw(t, "step"))
		}
		seen := map[int]bool{}
		for i, m := range Measures(ex) {
			at := m.Start
			for _, e := range m.Events {
				if e.Value.Halvings > finest {
					t.Fatalf("bar %d: there is no sign for %d flags", i, e.Value.Flags())
				}
				if e.Start != at || e.End <= e.Start {
					t.Fatalf("bar %d: an event from %d to %d is at %d", i, e.Start, e.End, at)
				}
				at = e.End
				if e.Note != line.Silence {
					seen[e.Note] = true
				}
			}
			if at != m.End {
				t.Fatalf("bar %d ends at %d, not %d", i, at, m.End)
			}
		}
		if len(seen) != len(ex.Notes) {
			t.Fatalf("%d notes are written of %d", len(seen), len(ex.Notes))
		}
	})
}

// signsOf lists the sign before each note: "b", "#", "n", "(n)".
func signsOf(ex *exercise.Exercise) string {
	letters := map[int]string{-1: "b", 0: "n", 1: "#", -2: "bb", 2: "x"}
	var bars []string
	for _, measure := range Measures(ex) {
		var words []string
		for j, m := range measure.Marks {
			if measure.Events[j].Note == line.Silence {
				continue
			}
			word := "-"
			if m.Printed {
				word = letters[m.Accidental]
			}
			if m.Courtesy {
				word = "(" + word + ")"
			}
			words = append(words, word)
		}
		bars = append(bars, strings.Join(words, " "))
	}
	return strings.Join(bars, " | ")
}

// Common practice (Gould 2011, "Accidentals"): a tie carries an accidental over
// the bar line. Courtesy naturals are in parentheses here.
func TestAccidentalsStandBeforeTheirNotes(t *testing.T) {
	rows := []struct{ notes, want string }{
		{"C4 C#4 C#4 C4", "- # - n"},
		{"Bb3 C4 D4 E4 B3 C4 D4 E4", "b - - - | (n) - - -"},
		{"Bbb3 Bb3 B3 Bbb3", "bb b n bb"},
		{"C##4 C#4 C4 Cb4", "x # n b"},
	}
	for _, row := range rows {
		words := strings.Fields(row.notes)
		ex := played(t, examples.FourFour, 0, strings.Repeat("960 ", len(words)))
		for i, word := range words {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			ex.Notes[i].Pitch = p
		}
		if got := signsOf(ex); got != row.want {
			t.Errorf("%s: %s, want %s", row.notes, got, row.want)
		}
	}
	tied := played(t, examples.FourFour, 0, "2880 1920 960 960")
	for i := range tied.Notes {
		tied.Notes[i].Pitch = pitch.Pitch{Name: pitch.Name{Letter: pitch.B, Accidental: -1}, Octave: 3}
	}
	if got := signsOf(tied); got != "b - | - b -" {
		t.Errorf("a flat tied over the bar line: %s", got)
	}
}
