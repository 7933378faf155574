package finger_test

import (
	"math"
	"slices"
	"testing"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"

	"pgregory.net/rapid"
)

// randomLine draws a line anywhere on the neck, with rests, repeated notes
// and free spots.
func randomLine(t *rapid.T, in neck.Instrument) []finger.Note {
	keys := rapid.SliceOfN(rapid.IntRange(40, 86), 1, 40).Draw(t, "keys")
	notes := everywhere(in, keys...)
	var start line.Beat
	for i := range notes {
		notes[i].Start = start
		start += line.Beat(rapid.SampledFrom([]int{240, 480, 960}).Draw(t, "gap"))
		notes[i].Duration = start - notes[i].Start
		if rapid.IntRange(0, 5).Draw(t, "rest") == 0 {
			notes[i].Duration /= 2
		}
		notes[i].Group = i / 3
	}
	return notes
}

func TestEveryLineKeepsTheRules(t *testing.T) {
	in := neck.Guitar()
	rapid.Check(t, func(t *rapid.T) {
		notes := randomLine(t, in)
		picking := rapid.SampledFrom([]finger.Picking{finger.Alternate, finger.Economy, finger.Legato}).Draw(t, "picking")
		reach := rapid.Float64Range(20, 140).Draw(t, "reach")
		played, hand, err := finger.Assign(in, notes, finger.Technique{Picking: picking, ReachMM: reach})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range played {
			if in.MIDI(f.Spot) != notes[i].MIDI || !slices.Contains(notes[i].Spots, f.Spot) {
				t.Fatalf("note %d at %v is not one of its spots", i+1, f.Spot)
			}
			if (f.Finger == 0) != (f.Fret == 0) || f.Finger < 0 || f.Finger > 4 {
				t.Fatalf("note %d: finger %d on fret %d", i+1, f.Finger, f.Fret)
			}
			if i > 0 && f.Spot == played[i-1].Spot && f.Finger != played[i-1].Finger {
				t.Fatalf("note %d repeats %v and changes from finger %d to %d", i+1, f.Spot, played[i-1].Finger, f.Finger)
			}
		}
		if math.Round(hand.WidestMM) > reach {
			t.Fatalf("the hand spans %.1f mm in one place, beyond its reach of %.1f", hand.WidestMM, reach)
		}
		checkStrokes(t, notes, played, picking)
	})
}

// checkStrokes holds each technique to its rule, worked out from the result
// alone.
func checkStrokes(t *rapid.T, notes []finger.Note, played []finger.Fingering, picking finger.Picking) {
	for i, f := range played {
		picked := f.Stroke == finger.Down || f.Stroke == finger.Up
		if i == 0 {
			if !picked {
				t.Fatalf("the line begins with a %s", f.Stroke)
			}
			continue
		}
		before := played[i-1]
		switch picking {
		case finger.Alternate:
			if !picked || f.Stroke == before.Stroke {
				t.Fatalf("note %d: %s after %s", i+1, f.Stroke, before.Stroke)
			}
		case finger.Economy:
			want := map[finger.Stroke]finger.Stroke{finger.Down: finger.Up, finger.Up: finger.Down}[before.Stroke]
			if f.String < before.String {
				want = finger.Down
			} else if f.String > before.String {
				want = finger.Up
			}
			if f.Stroke != want {
				t.Fatalf("note %d: %s from string %d to %d after %s", i+1, f.Stroke, before.String, f.String, before.Stroke)
			}
		case finger.Legato:
			rested := notes[i-1].Start+notes[i-1].Duration < notes[i].Start
			want := finger.HammerOn
			if f.Fret < before.Fret {
				want = finger.PullOff
			}
			if f.Finger == before.Finger {
				want = finger.Slide
			}
			if slurred := f.String == before.String && f.Fret != before.Fret && !rested; picked == slurred || slurred && f.Stroke != want {
				t.Fatalf("note %d: %s from %v to %v, rested %v", i+1, f.Stroke, before, f, rested)
			}
		}
	}
}

// While the first finger's place can't have changed, no finger goes straight
// to another fret: on two neighbouring frets of one string there is always a
// free finger.
func TestNeighbouringFretsTakeTwoFingers(t *testing.T) {
	in := neck.Guitar()
	for fret := 1; fret < in.LastFret(); fret++ {
		played, _ := assign(t, in, eighths(in, []neck.Spot{{String: 3, Fret: fret}, {String: 3, Fret: fret + 1}}), finger.Technique{})
		if played[0].Finger+1 != played[1].Finger {
			t.Errorf("frets %d and %d: fingers %d and %d, want neighbours", fret, fret+1, played[0].Finger, played[1].Finger)
		}
	}
}

func TestReachIsTakenToTheNearestMM(t *testing.T) {
	in := neck.Guitar()
	// Five frets from the fifth are 100.15 mm: within a reach of 100, as the
	// usual wording of the limit has it, and not within one of 99.
	notes := func() []finger.Note { return eighths(in, at(t, "6/5 6/9 6/5 6/9")) }
	_, hand := assign(t, in, notes(), finger.Technique{Picking: finger.Legato, ReachMM: 100})
	if hand.TravelMM != 0 || math.Round(hand.WidestMM) != 100 {
		t.Errorf("reach 100: travel %.1f, widest %.1f mm; want none, 100", hand.TravelMM, hand.WidestMM)
	}
	_, hand = assign(t, in, notes(), finger.Technique{Picking: finger.Legato, ReachMM: 99})
	if hand.TravelMM == 0 || hand.WidestMM > 99 {
		t.Errorf("reach 99: travel %.1f, widest %.1f mm; want the hand to move", hand.TravelMM, hand.WidestMM)
	}
}

func TestNoLineIsRefusedForItsWidth(t *testing.T) {
	in := neck.Guitar()
	narrow, hand := assign(t, in, eighths(in, at(t, "6/1 1/22 6/2 1/1")), finger.Technique{ReachMM: 1})
	for _, f := range narrow {
		if f.Finger != 1 {
			t.Errorf("finger %d with a reach of 1 mm, want the first alone", f.Finger)
		}
	}
	if far := in.FretMM(22) - in.FretMM(1); hand.TravelMM < 2*far {
		t.Errorf("travel %.1f mm, want at least there and back, %.1f", hand.TravelMM, 2*far)
	}
}

func TestHandIsMeasured(t *testing.T) {
	in := neck.Guitar()
	_, hand := assign(t, in, eighths(in, boxes(t, in, "5 8, 5 7, 5 7")), finger.Technique{})
	if hand.TravelMM != 0 || hand.WidestMM != in.FretMM(8)-in.FretMM(5) || hand.Crossings != 2 {
		t.Errorf("A minor pentatonic on three strings: %+v", hand)
	}
	firsts := eighths(in, at(t, "6/0 6/1 6/0 6/13 6/0"))
	firsts[1].Given, firsts[3].Given = 1, 1
	_, hand = assign(t, in, firsts, finger.Technique{})
	if hand.TravelMM != in.FretMM(13)-in.FretMM(1) || hand.WidestMM != 0 || hand.Crossings != 0 {
		t.Errorf("two first fingers twelve frets apart: %+v", hand)
	}
}
