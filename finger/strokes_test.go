package finger_test

import (
	"testing"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
)

func TestStrokesFollowTheTechnique(t *testing.T) {
	in := neck.Guitar()
	for _, c := range []struct {
		name, frets string
		picking     finger.Picking
		strokes     string
	}{
		{"alternate strokes alternate over every string", "5 7 9, 5 7 9, 6 7 9", finger.Alternate, "d u d, u d u, d u d"},
		{"economy sweeps each crossing of three notes on each string", "5 7 9, 5 7 9, 6 7 9", finger.Economy, "d u d, d u d, d u d"},
		{"economy begins upward to gain a sweep, then two on each string alternate", "5 8, 5 7, 5 7", finger.Economy, "u d, d u, d u"},
		{"economy alternates on one string", "5 7 8 7 5", finger.Economy, "d u d u d"},
		{"legato picks the first on each string", "5 7 9, 5 7 9, 6 7 9", finger.Legato, "d h h, d h h, d h h"},
		{"legato goes off an open string and back to it", "0 2 0 3 0", finger.Legato, "d h p h p"},
		{"legato picks a repeated pitch again", "5 7 7 5 5", finger.Legato, "d h d p d"},
	} {
		played, _ := assign(t, in, eighths(in, boxes(t, in, c.frets)), finger.Technique{Picking: c.picking})
		if got := strokesOf(played); got != c.strokes {
			t.Errorf("%s: %s, want %s", c.name, got, c.strokes)
		}
	}
}

// Falling, the sweep goes upward: three notes on a string from the thinnest,
// the last of them up (common practice).
func TestEconomySweepsUpwardWhenFalling(t *testing.T) {
	in := neck.Guitar()
	played, _ := assign(t, in, eighths(in, at(t, "1/10 1/9 1/7 2/10 2/9 2/7 3/9 3/7 3/6")), finger.Technique{Picking: finger.Economy})
	if got, want := strokesOf(played), "u d u, u d u, u d u"; got != want {
		t.Errorf("strokes %s, want %s", got, want)
	}
}

func TestLegatoPicksAfterARest(t *testing.T) {
	in := neck.Guitar()
	notes := eighths(in, at(t, "6/5 6/7 6/8 6/7"))
	notes[1].Duration = line.Quarter / 4
	played, _ := assign(t, in, notes, finger.Technique{Picking: finger.Legato})
	if got, want := strokesOf(played), "d h d p"; got != want {
		t.Errorf("strokes %s, want %s", got, want)
	}
}

func TestLegatoSlidesWhereOneFingerMustGoOn(t *testing.T) {
	in := neck.Guitar()
	played, _ := assign(t, in, eighths(in, at(t, "6/3 6/5")), finger.Technique{Picking: finger.Legato, ReachMM: 10})
	if got, want := strokesOf(played), "d s"; got != want {
		t.Errorf("strokes %s, want %s", got, want)
	}
}

// The two hands are one path: where a pitch lies on two strings at hand, the
// pick's way decides.
func TestPickDecidesBetweenTwoStringsUnderTheHand(t *testing.T) {
	in := neck.Guitar()
	// D4 at 3/7 or 2/3: from C4 and C♯4 on string 3 it stays there.
	notes := eighths(in, at(t, "3/5 3/6 3/7 3/8"))
	for i := range notes {
		notes[i].Preferred = neck.Spot{}
	}
	notes[2].Spots = append(notes[2].Spots, neck.Spot{String: 4, Fret: 12}, neck.Spot{String: 2, Fret: 3})
	played, hand := assign(t, in, notes, finger.Technique{})
	if hand.Crossings != 0 {
		t.Errorf("%d crossings, want none: %v", hand.Crossings, played)
	}
}
