package exercise_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
)

func TestACutKeepsHowItsNotesArePlayed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := anySpec(t)
		spec.Cut = ""
		full := mustBuild(t, spec)
		from := rapid.IntRange(1, len(full.Notes)-1).Draw(t, "from")
		to := rapid.IntRange(from+1, len(full.Notes)).Draw(t, "to")
		spec.Cut = fmt.Sprintf("%d-%d", from, to)
		cut := mustBuild(t, spec)
		if len(cut.Notes) != to-from+1 {
			t.Fatalf("cut %s has %d notes", spec.Cut, len(cut.Notes))
		}
		bar := full.Rhythm.Meter.Bar()
		moved := full.Notes[from-1].Start - cut.Notes[0].Start
		if first := cut.Notes[0].Start; moved%bar != 0 || first < 0 || first >= bar {
			t.Fatalf("cut %s begins at %v, moved by %v", spec.Cut, first, moved)
		}
		for i, n := range cut.Notes {
			want := full.Notes[from-1+i]
			want.Start -= moved
			want.Index, want.Group = i, want.Group-full.Notes[from-1].Group
			if n != want {
				t.Fatalf("note %d of cut %s is %+v, want %+v", i+1, spec.Cut, n, want)
			}
			if chord := cut.ChordAt(n.Start).Symbol; chord != full.ChordAt(n.Start+moved).Symbol {
				t.Fatalf("note %d of cut %s is over %s", i+1, spec.Cut, chord)
			}
		}
		last := cut.Notes[len(cut.Notes)-1]
		if cut.Length%bar != 0 || cut.Length < last.End() || cut.Length >= last.End()+bar {
			t.Fatalf("cut %s ends at %v and lasts %v", spec.Cut, last.End(), cut.Length)
		}
		checkChordsCover(t, cut)
	})
}

// checkChordsCover fails unless the chords follow each other from the first bar to the
// end.
func checkChordsCover(t *rapid.T, ex *exercise.Exercise) {
	at := line.Beat(0)
	for _, c := range ex.Chords {
		if c.Start != at || c.End <= c.Start {
			t.Fatalf("%s from %v to %v, after %v", c.Symbol, c.Start, c.End, at)
		}
		at = c.End
	}
	if at != ex.Length {
		t.Fatalf("the chords end at %v, the line at %v", at, ex.Length)
	}
}

// A cell moves to another key, place or neck with the spec that it is cut from.
func TestACutMovesWithItsSpec(t *testing.T) {
	intervals := func(text string) string {
		ex := build(t, text)
		list := ""
		for i, n := range ex.Notes[1:] {
			list += fmt.Sprint(n.Pitch.MIDI()-ex.Notes[i].Pitch.MIDI(), " ", n.Start-ex.Notes[i].Start, " ", n.Degree, "; ")
		}
		return list
	}
	cell := "superimpose: semitone up\ngroups: 3,3\ncut: 5-10\n"
	want := intervals("home: G minor pentatonic\nfret: 10\n" + cell)
	if got := intervals("home: A minor pentatonic\nfret: 12\n" + cell); got != want {
		t.Errorf("in A: %s, want %s", got, want)
	}
}

func TestACutIsSaidInTheSentence(t *testing.T) {
	ex := build(t, workshop+"cut: 5-10\n")
	if want := "in eighths at 80; only notes 5 to 10 of it."; len(ex.Sentence) < len(want) || ex.Sentence[len(ex.Sentence)-len(want):] != want {
		t.Error(ex.Sentence)
	}
}
