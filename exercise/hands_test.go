package exercise_test

import (
	"iter"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/neck"
	"heddle/touch"
)

// anyLine draws a woven line on any instrument.
func anyLine(t *rapid.T) exercise.Spec {
	roots := []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	types := []string{"minor pentatonic", "major pentatonic", "blues", "major", "dorian", "mixolydian", "melodic minor", "harmonic minor", "whole tone"}
	s := exercise.Spec{
		Home:       rapid.SampledFrom(roots).Draw(t, "root") + " " + rapid.SampledFrom(types).Draw(t, "type"),
		Instrument: rapid.SampledFrom(neck.Instruments()).Draw(t, "instrument"),
		Direction:  rapid.SampledFrom([]string{"down", "up", "down-up", "up-down"}).Draw(t, "direction"),
		Follow:     rapid.SampledFrom([]string{"first", "last"}).Draw(t, "follow"),
		Picking:    rapid.SampledFrom([]string{"alternate", "economy", "legato"}).Draw(t, "picking"),
		Fret:       rapid.IntRange(1, 12).Draw(t, "fret"),
		Groups:     []int{rapid.IntRange(1, 4).Draw(t, "size")},
	}
	over := rapid.SampledFrom([]string{"", "semitone up", "tritone", "minor third up", "fourth up", "whole tone down"}).Draw(t, "over")
	if over != "" {
		s.Superimpose = []string{over}
		s.Groups = append(s.Groups, rapid.IntRange(1, 4).Draw(t, "other size"))
	}
	s.Land = rapid.SampledFrom([]string{"", "third"}).Draw(t, "land")
	return s
}

// lines builds a few hundred lines, the same every time.
func lines(t *testing.T) iter.Seq[*exercise.Exercise] {
	return func(yield func(*exercise.Exercise) bool) {
		built := 0
		for i := range 300 {
			ex, err := exercise.Build(rapid.Custom(anyLine).Example(i))
			if err != nil {
				continue // no hand joins these scales
			}
			if built++; !yield(ex) {
				return
			}
		}
		if built < 200 {
			t.Errorf("only %d lines could be built", built)
		}
	}
}

// Common practice for the fretting hand, on every instrument: a note that sounds
// again keeps its finger; fingers 1 and 4 do not take neighbouring frets of a
// string where others can; the fourth finger is the last choice to slide with.
func TestFingersKeepThePracticeOfTheHand(t *testing.T) {
	var neighbours, firstAndFourth, slides, fourthSlides int
	for ex := range lines(t) {
		for i := 1; i < len(ex.Notes); i++ {
			from, to := ex.Notes[i-1], ex.Notes[i]
			if from.Finger == 0 || to.Finger == 0 || from.String != to.String {
				continue
			}
			frets, fingers := max(to.Fret-from.Fret, from.Fret-to.Fret), max(to.Finger-from.Finger, from.Finger-to.Finger)
			switch {
			case frets == 0 && fingers != 0:
				t.Fatalf("note %d is played again and changes from finger %d to %d", i+1, from.Finger, to.Finger)
			case frets > 0 && fingers == 0:
				slides++
				if to.Finger == 4 {
					fourthSlides++
				}
			case frets == 1:
				neighbours++
				if fingers == 3 {
					firstAndFourth++
				}
			}
		}
	}
	if firstAndFourth*500 > neighbours {
		t.Errorf("fingers 1 and 4 are on neighbouring frets %d times in %d", firstAndFourth, neighbours)
	}
	if slides == 0 || fourthSlides*8 > slides {
		t.Errorf("the fourth finger moves along its string %d times, all fingers %d times", fourthSlides, slides)
	}
}

// A touch shapes the notes of a line and changes none of them.
func TestATouchKeepsTheNotes(t *testing.T) {
	used := map[touch.Touch]bool{}
	bends, firstFinger := 0, 0
	styles := []string{"blues", "rock", "jazz", "funk", "ballad", "bends, quarter bends, staccato"}
	number := 0
	for plain := range lines(t) {
		spec := plain.Spec
		spec.Touch = styles[number%len(styles)]
		number++
		touched, err := exercise.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		if len(touched.Notes) != len(plain.Notes) {
			t.Fatalf("%d notes, plain %d", len(touched.Notes), len(plain.Notes))
		}
		for i, n := range touched.Notes {
			if n.Note != plain.Notes[i].Note {
				t.Fatalf("note %d is %+v, plain %+v", i+1, n.Note, plain.Notes[i].Note)
			}
			if stopped := touched.Instrument.MIDI(n.Spot); stopped+n.Touch.Bend.Below() != n.Pitch.MIDI() {
				t.Fatalf("note %d, %v, is stopped at key %d and bent by %v", i+1, n.Pitch, stopped, n.Touch.Bend)
			}
			if n.Touch.Bend > 0 && !touch.CanBend(touched.Instrument, n.Spot, n.Touch.Bend) {
				t.Fatalf("note %d is bent by %v at %v of the %s", i+1, n.Touch.Bend, n.Spot, spec.Instrument)
			}
			if n.Touch.Bend >= touch.Half {
				bends++
				if n.Finger == 1 {
					firstFinger++
				}
			}
			if err := n.Touch.Check(); err != nil {
				t.Fatalf("note %d: %v", i+1, err)
			}
			used[n.Touch] = true
		}
	}
	if len(used) < 12 {
		t.Errorf("only %d kinds of touch came up", len(used))
	}
	if bends == 0 || firstFinger*25 > bends {
		t.Errorf("the first finger bends %d notes of %d", firstFinger, bends)
	}
}
