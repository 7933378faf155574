package finger_test

import (
	"strings"
	"testing"

	"heddle/finger"
	"heddle/neck"
	"heddle/pitch"
)

// The fingerings below are common practice: what methods for the guitar print
// under these shapes.
func TestPositionScalesAreFingeredOneFingerPerFret(t *testing.T) {
	for _, c := range []struct{ name, frets, fingers string }{
		{"A minor pentatonic, fifth position", "5 8, 5 7, 5 7, 5 7, 5 8, 5 8", "1 4, 1 3, 1 3, 1 3, 1 4, 1 4"},
		{"G minor pentatonic, tenth position", "10 13, 10 13, 10 12, 10 12, 11 13, 10 13", "1 4, 1 4, 1 3, 1 3, 2 4, 1 4"},
		{"A blues, fifth position", "5 8, 5 6 7, 5 7, 5 7 8, 5 8, 5 8", "1 4, 1 2 3, 1 3, 1 3 4, 1 4, 1 4"},
		{"G major, second position", "3 5, 2 3 5, 2 4 5, 2 4 5, 3 5, 2 3 5", "2 4, 1 2 4, 1 3 4, 1 3 4, 2 4, 1 2 4"},
		{"A natural minor, fifth position", "5 7 8, 5 7 8, 5 7", "1 3 4, 1 3 4, 1 3"},
		{"chromatic, fifth position", "5 6 7 8, 5 6 7 8, 5 6 7 8", "1 2 3 4, 1 2 3 4, 1 2 3 4"},
		{"E minor pentatonic, open", "0 3, 0 2, 0 2, 0 2, 0 3, 0 3", "0 3, 0 2, 0 2, 0 2, 0 3, 0 3"},
		{"C major, first position", "0 1 3, 0 2 3, 0 2 3, 0 2, 0 1 3, 0 1 3", "0 1 3, 0 2 3, 0 2 3, 0 2, 0 1 3, 0 1 3"},
	} {
		in := neck.Guitar()
		rising := boxes(t, in, c.frets)
		for _, picking := range []finger.Picking{finger.Alternate, finger.Economy, finger.Legato} {
			played, _ := assign(t, in, eighths(in, rising), finger.Technique{Picking: picking})
			if got := fingersOf(played); got != c.fingers {
				t.Errorf("%s, %s: fingers %s, want %s", c.name, picking, got, c.fingers)
			}
			played, _ = assign(t, in, eighths(in, backwards(rising)), finger.Technique{Picking: picking})
			if got := fingersOf(backwards(played)); got != c.fingers {
				t.Errorf("%s, %s, falling: fingers %s, want %s", c.name, picking, got, c.fingers)
			}
		}
	}
}

func backwards[E any](list []E) []E {
	turned := make([]E, len(list))
	for i := range list {
		turned[len(list)-1-i] = list[i]
	}
	return turned
}

// Three notes on each string: first, second and fourth finger where both
// steps are whole tones, and the finger that lies on the fret where one is a
// semitone (common practice).
func TestThreeNotesOnEachStringKeepOneFingeringForEachShape(t *testing.T) {
	in := neck.Guitar()
	for _, c := range []struct{ name, frets, fingers string }{
		{"A major", "5 7 9, 5 7 9, 6 7 9, 6 7 9, 7 9 10, 7 9 10", "1 2 4, 1 2 4, 1 2 4, 1 2 4, 1 3 4, 1 3 4"},
		{"G major, wider than the reach", "3 5 7, 3 5 7, 4 5 7, 4 5 7, 5 7 8, 5 7 8", "1 2 4, 1 2 4, 1 2 4, 1 2 4, 1 3 4, 1 3 4"},
	} {
		played, _ := assign(t, in, grouped(eighths(in, boxes(t, in, c.frets)), 3), finger.Technique{})
		if got := fingersOf(played); got != c.fingers {
			t.Errorf("%s: fingers %s, want %s", c.name, got, c.fingers)
		}
	}
}

// Two shapes a fret apart, woven in threes: the hand moves the one fret
// between the groups, and each shape keeps the fingers it has under a hand of
// its own, as a teacher would write it.
func TestWovenPlacementsOneFretApartKeepTheirShapes(t *testing.T) {
	in := neck.Guitar()
	spots := at(t, "1/13 1/10 2/13  1/11 2/14 2/12  1/10 2/13 2/11  2/14 2/12 3/13")
	played, hand := assign(t, in, grouped(eighths(in, spots), 3), finger.Technique{})
	if got, want := fingersOf(played), "4 1, 4, 1, 4 2, 1, 4 2 4 2, 3"; got != want {
		t.Errorf("fingers %s, want %s", got, want)
	}
	oneFret := in.FretMM(11) - in.FretMM(10)
	if hand.TravelMM < 2.9*oneFret || hand.TravelMM > 3.1*oneFret {
		t.Errorf("the hand travels %.1f mm, want three times one fret, %.1f mm", hand.TravelMM, 3*oneFret)
	}
}

// A note that is played again keeps its finger, though the hand must move for the
// next one (common practice).
func TestARepeatedNoteKeepsItsFinger(t *testing.T) {
	in := neck.Guitar()
	for _, c := range []struct{ name, spots, fingers string }{
		{"before the hand moves up", "3/2 3/3  3/3 3/4  3/5 2/3", "1 2 2 3 4, 2"},
		{"before it moves down", "1/8 1/7  1/7 1/5  1/4 1/2", "4 3 3 1 3 1"},
	} {
		played, _ := assign(t, in, grouped(eighths(in, at(t, c.spots)), 2), finger.Technique{})
		if got := fingersOf(played); got != c.fingers {
			t.Errorf("%s: fingers %s, want %s", c.name, got, c.fingers)
		}
	}
	notes := eighths(in, at(t, "3/5 3/5"))
	notes[0].Given, notes[1].Given = 1, 3
	if played, _ := assign(t, in, notes, finger.Technique{}); fingersOf(played) != "1 3" {
		t.Errorf("fingers %s, want the given 1 3", fingersOf(played))
	}
}

// The little finger is the last choice to slide with (common practice).
func TestTheFourthFingerSlidesOnlyWhereNoOtherCan(t *testing.T) {
	in := neck.Guitar()
	for _, c := range []struct {
		spots, fingers string
		picking        finger.Picking
	}{
		{"5/10 6/13  6/12 6/11 6/9", "1, 4 3 2 1", finger.Alternate},
		{"5/10 6/13  6/12 6/11 6/9", "1, 4 3 3 1", finger.Legato},
	} {
		played, _ := assign(t, in, grouped(eighths(in, at(t, c.spots)), 2), finger.Technique{Picking: c.picking})
		if got := fingersOf(played); got != c.fingers {
			t.Errorf("%s, %s: fingers %s, want %s", c.spots, c.picking, got, c.fingers)
		}
	}
}

// Legato can't move while a finger falls: where a slur would go with a shift,
// the hand opens over five frets instead, as its reach allows here.
func TestLegatoOpensTheHandSoonerThanShiftInASlur(t *testing.T) {
	in := neck.Guitar()
	spots := at(t, "2/13 2/10 2/14  2/10 2/13 2/14")
	played, hand := assign(t, in, grouped(eighths(in, spots), 3), finger.Technique{Picking: finger.Legato})
	if hand.TravelMM != 0 {
		t.Errorf("fingers %s: the hand travels %.1f mm, want none", fingersOf(played), hand.TravelMM)
	}
	if five := in.FretMM(14) - in.FretMM(10); hand.WidestMM != five {
		t.Errorf("legato spans %.1f mm, want the five frets from 10 to 14, %.1f mm", hand.WidestMM, five)
	}
}

// A line whose places are free is taken where a player would: a scale that
// has a closed position lies in it whole, and past the twelfth fret on the
// thin strings (common practice).
func TestFreeLinesLieInOnePosition(t *testing.T) {
	in := neck.Guitar()
	for _, c := range []struct {
		name    string
		keys    []int
		fingers string
	}{
		{"A major, two octaves, fourth position", []int{45, 47, 49, 50, 52, 54, 56, 57, 59, 61, 62, 64, 66, 68, 69},
			"2 4, 1 2 4, 1 3 4, 1 3 4, 2 4, 1 2"},
		{"C major, two octaves, seventh position", []int{48, 50, 52, 53, 55, 57, 59, 60, 62, 64, 65, 67, 69, 71, 72},
			"2 4, 1 2 4, 1 3 4, 1 3 4, 2 4, 1 2"},
	} {
		played, hand := assign(t, in, everywhere(in, c.keys...), finger.Technique{})
		if got := fingersOf(played); got != c.fingers {
			t.Errorf("%s: fingers %s, want %s", c.name, got, c.fingers)
		}
		if hand.TravelMM != 0 {
			t.Errorf("%s: the hand travels %.1f mm, want none", c.name, hand.TravelMM)
		}
	}
}

// Low on a bass four frets are more than 100 mm: players put the fourth
// finger on the third fret of the position, with the third's support (common
// practice in double bass and bass guitar methods).
func TestBassPlayersUseFirstSecondAndFourthLowOnTheNeck(t *testing.T) {
	bass := neck.Instrument{Name: "bass", Frets: 20, ScaleMM: 864}
	for _, open := range []string{"G2", "D2", "A1", "E1"} {
		p, err := pitch.Parse(open)
		if err != nil {
			t.Fatal(err)
		}
		bass.Open = append(bass.Open, p)
	}
	played, hand := assign(t, bass, eighths(bass, boxes(t, bass, "1 2 3, 1 2 3")), finger.Technique{})
	if got := fingersOf(played); got != "1 2 4, 1 2 4" {
		t.Errorf("fingers %s, want 1 2 4, 1 2 4", got)
	}
	if hand.TravelMM != 0 {
		t.Errorf("the hand travels %.1f mm, want none", hand.TravelMM)
	}
}

func TestFingeringDoesNotDependOnHowFastTheLineGoes(t *testing.T) {
	in := neck.Guitar()
	notes := grouped(eighths(in, at(t, "1/13 1/10 2/13  1/11 2/14 2/12  1/10 2/13 2/11")), 3)
	played, _ := assign(t, in, notes, finger.Technique{})
	for i := range notes {
		notes[i].Start, notes[i].Duration = notes[i].Start/2, notes[i].Duration/2
	}
	faster, _ := assign(t, in, notes, finger.Technique{})
	if a, b := fingersOf(played), fingersOf(faster); a != b {
		t.Errorf("in eighths %s, in sixteenths %s", a, b)
	}
}

func TestGivenFingerIsKept(t *testing.T) {
	in := neck.Guitar()
	notes := eighths(in, boxes(t, in, "5 8, 5 7, 5 7"))
	notes[3].Given = 2
	played, _ := assign(t, in, notes, finger.Technique{})
	if played[3].Finger != 2 {
		t.Errorf("finger %d, want the given 2", played[3].Finger)
	}
}

func TestPreferredSpotIsKeptWhileTheHandIsNear(t *testing.T) {
	in := neck.Guitar()
	notes := eighths(in, boxes(t, in, "10 13, 10 13, 10 12, 10 12, 11 13, 10 13"))
	for i := range notes {
		notes[i].Spots = backwards(everywhere(in, notes[i].MIDI)[0].Spots)
	}
	played, _ := assign(t, in, notes, finger.Technique{})
	for i, f := range played {
		if f.Spot != notes[i].Preferred {
			t.Errorf("note %d at %v, want its placement's %v", i+1, f.Spot, notes[i].Preferred)
		}
	}
}

func TestBadInputIsNamedInOneLine(t *testing.T) {
	in := neck.Guitar()
	good := func() []finger.Note { return eighths(in, boxes(t, in, "5 8, 5 7")) }
	for _, c := range []struct {
		name string
		bend func(notes []finger.Note, technique *finger.Technique)
		want string
	}{
		{"picking", func(_ []finger.Note, t *finger.Technique) { t.Picking = "hybrid" }, `picking "hybrid"`},
		{"negative reach", func(_ []finger.Note, t *finger.Technique) { t.ReachMM = -1 }, `reach "-1"`},
		{"no place", func(n []finger.Note, _ *finger.Technique) { n[1].Spots = nil }, `note 2 "MIDI 48"`},
		{"another pitch", func(n []finger.Note, _ *finger.Technique) { n[1].MIDI++ }, `note 2 spot "string 6 fret 8"`},
		{"off the neck", func(n []finger.Note, _ *finger.Technique) { n[0].Spots = []neck.Spot{{String: 7, Fret: 1}} }, `note 1 spot "string 7 fret 1"`},
		{"two at once", func(n []finger.Note, _ *finger.Technique) { n[2].Start = n[1].Start }, `note 3 start "0.5"`},
		{"sixth finger", func(n []finger.Note, _ *finger.Technique) { n[3].Given = 6 }, `note 4 finger "6"`},
	} {
		notes, technique := good(), finger.Technique{}
		c.bend(notes, &technique)
		_, _, err := finger.Assign(in, notes, technique)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: error %v, want one line beginning %s", c.name, err, c.want)
		}
	}
	for _, bend := range []func(in *neck.Instrument){
		func(in *neck.Instrument) { in.Frets = 1000 },
		func(in *neck.Instrument) { in.Capo = 30 },
		func(in *neck.Instrument) { in.ScaleMM = 0 },
		func(in *neck.Instrument) { in.Open = make([]pitch.Pitch, 200) },
	} {
		bent := neck.Guitar()
		bend(&bent)
		if _, _, err := finger.Assign(bent, good(), finger.Technique{}); err == nil {
			t.Errorf("an instrument with %d frets, capo %d, scale %v mm, %d strings is taken", bent.Frets, bent.Capo, bent.ScaleMM, bent.Strings())
		}
	}
	// A given finger that no hand of this reach brings to the note.
	notes := good()
	notes[1].Given = 4
	if _, _, err := finger.Assign(in, notes, finger.Technique{ReachMM: 1}); err == nil || !strings.HasPrefix(err.Error(), `note 2 finger "4"`) {
		t.Errorf("fourth finger with a reach of 1 mm: error %v", err)
	}
	if played, hand, err := finger.Assign(in, nil, finger.Technique{}); played != nil || hand != (finger.Hand{}) || err != nil {
		t.Errorf("no notes: %v %v %v, want nothing", played, hand, err)
	}
}
