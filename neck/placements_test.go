package neck

import (
	"cmp"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
)

// The five shapes of the minor pentatonic and the layouts of the major scale
// are common practice; every row can be checked against the neck by eye.
func TestScalesLieWherePlayersPlayThem(t *testing.T) {
	for _, c := range []struct {
		instrument, scale, system string
		begins                    int // fret on the lowest-pitched string
		frets                     string
	}{
		{"guitar", "A minor pentatonic", twoPerString, 0, "0-3 0-3 0-2 0-2 1-3 0-3"},
		{"guitar", "A minor pentatonic", twoPerString, 3, "3-5 3-5 2-5 2-5 3-5 3-5"},
		{"guitar", "A minor pentatonic", twoPerString, 5, "5-8 5-7 5-7 5-7 5-8 5-8"},
		{"guitar", "A minor pentatonic", twoPerString, 8, "8-10 7-10 7-10 7-9 8-10 8-10"},
		{"guitar", "A minor pentatonic", twoPerString, 10, "10-12 10-12 10-12 9-12 10-13 10-12"},
		{"guitar", "A minor pentatonic", twoPerString, 12, "12-15 12-15 12-14 12-14 13-15 12-15"},
		{"guitar", "A minor pentatonic", twoPerString, 17, "17-20 17-19 17-19 17-19 17-20 17-20"},
		{"guitar", "G minor pentatonic", twoPerString, 10, "10-13 10-13 10-12 10-12 11-13 10-13"},
		{"guitar", "Ab minor pentatonic", twoPerString, 11, "11-14 11-14 11-13 11-13 12-14 11-14"},
		{"guitar", "E minor pentatonic", twoPerString, 0, "0-3 0-2 0-2 0-2 0-3 0-3"},
		{"guitar", "C major pentatonic", twoPerString, 8, "8-10 7-10 7-10 7-9 8-10 8-10"},
		{"guitar", "A hirajoshi", twoPerString, 5, "5-7 3-7 3-7 4-5 5-6 5-7"},
		{"seven-string guitar", "A minor pentatonic", twoPerString, 5, "5-8 5-8 5-7 5-7 5-7 5-8 5-8"},
		{"eight-string guitar", "A minor pentatonic", twoPerString, 3, "3-6 3-5 3-5 3-5 2-5 2-5 3-5 3-5"},
		{"bass", "A minor pentatonic", twoPerString, 5, "5-8 5-7 5-7 5-7"},
		{"six-string bass", "A minor pentatonic", twoPerString, 5, "5-8 5-8 5-7 5-7 5-7 4-7"},

		{"guitar", "G major", positional, 0, "0-2-3 0-2-3 0-2-4 0-2 0-1-3 0-2-3"},
		{"guitar", "G major", positional, 2, "2-3-5 2-3-5 2-4-5 2-4-5 3-5 2-3-5"},
		{"guitar", "G major", positional, 5, "5-7-8 5-7 4-5-7 4-5-7 5-7-8 5-7-8"},
		{"guitar", "G major", positional, 7, "7-8-10 7-9-10 7-9-10 7-9 7-8-10 7-8-10"},
		{"guitar", "G major", positional, 10, "10-12 9-10-12 9-10-12 9-11-12 10-12-13 10-12"},
		{"guitar", "G major", threePerString, 3, "3-5-7 3-5-7 4-5-7 4-5-7 5-7-8 5-7-8"},
		{"guitar", "G major", threePerString, 7, "7-8-10 7-9-10 7-9-10 7-9-11 8-10-12 8-10-12"},
		{"guitar", "A harmonic minor", positional, 5, "5-7-8 5-7-8 6-7-9 5-7 5-6-9 5-7-8"},

		{"guitar", "A blues", positional, 5, "5-8 5-6-7 5-7 5-7-8 5-8 5-8"},
		{"guitar", "C whole tone", positional, 8, "8-10 7-9-11 8-10 7-9 7-9-11 8-10"},
		{"guitar", "A chromatic", positional, 5, "5-6-7-8-9 5-6-7-8-9 5-6-7-8-9 5-6-7-8 5-6-7-8-9 5-6-7-8-9"},
		{"guitar", "G major triad", positional, 3, "3 2 0 0 0-3 3"},
		{"guitar D2 A2 D3 G3 B3 E4", "D minor pentatonic", positional, 7, "7-10-12 8-10 7-10 7-10 8-10 8-10"},
		{"mandolin", "G major", positional, 0, "0-2-4-5 0-2-4-5 0-2-3-5 0-2-3-5"},
		{"ukulele", "C major pentatonic", twoPerString, 0, "0-2 0-3 0-3"},
		{"ukulele", "E minor pentatonic", twoPerString, 2, "2-4 3-5 2-5"},
		{"ukulele", "C major", positional, 0, "0-2 0-1-3 0-2-3"},
		{"ukulele", "C whole tone", positional, 0, "0-2 0-2-4 1-3"},
	} {
		in := instrument(t, c.instrument)
		p := placementAt(t, in, scale(t, c.scale), c.system, c.begins)
		if diff := gocmp.Diff(c.frets, fretsOf(p)); diff != "" {
			t.Errorf("%s on %s from fret %d (-want +got):\n%s", c.scale, c.instrument, c.begins, diff)
		}
	}
}

// On a ukulele the hand crosses the C, E and A strings; the high G string has some
// of the same notes again (common practice). Double courses are one string each.
func TestTheOtherStringsOfAReentrantTuningDoubleTheRun(t *testing.T) {
	for _, c := range []struct {
		instrument, scale string
		begins            int
		doubled           []Spot
	}{
		{"ukulele", "E minor pentatonic", 2, []Spot{{4, 2}, {4, 4}}},
		{"ukulele", "C major pentatonic", 0, []Spot{{4, 0}, {4, 2}}},
		{"guitar E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4", "A minor pentatonic", 5,
			[]Spot{{1, 5}, {1, 8}, {3, 5}, {3, 8}, {5, 5}, {7, 5}, {7, 7}, {9, 5}, {9, 7}, {11, 5}, {11, 8}}},
		{"guitar E4 B3 G3 D3 A2 E2", "A minor pentatonic", 5, nil}, // strung the other way round
	} {
		in := instrument(t, c.instrument)
		p := placementAt(t, in, scale(t, c.scale), twoPerString, c.begins)
		var spots []Spot
		for _, d := range p.Doubled {
			spots = append(spots, d.Spot)
		}
		slices.SortFunc(spots, func(a, b Spot) int { return cmp.Or(a.String-b.String, a.Fret-b.Fret) })
		if diff := gocmp.Diff(c.doubled, spots); diff != "" {
			t.Errorf("%s on %s (-want +got):\n%s", c.scale, c.instrument, diff)
		}
	}
}

func TestAPentatonicHasOnePlacementForEachDegree(t *testing.T) {
	var begins []int
	for _, p := range Placements(Guitar(), scale(t, "A minor pentatonic")) {
		begins = append(begins, p.Places[0].Fret)
	}
	if diff := gocmp.Diff([]int{0, 3, 5, 8, 10, 12, 15, 17, 20}, begins); diff != "" {
		t.Errorf("frets on string 6 (-want +got):\n%s", diff)
	}
}

// D major pentatonic from the open sixth string would ask for fret −1 on
// string 3; it stands at fret 12 all the same.
func TestAPlacementThatWouldFallOffTheNeckIsLeftOut(t *testing.T) {
	for _, p := range Placements(Guitar(), scale(t, "D major pentatonic")) {
		if p.Places[0].Fret == 0 {
			t.Errorf("there is one at the nut: %s", fretsOf(p))
		}
	}
	twelfth := placementAt(t, Guitar(), scale(t, "D major pentatonic"), twoPerString, 12)
	if got := fretsOf(twelfth); got != "12-14 12-14 12-14 11-14 12-15 12-14" {
		t.Error(got)
	}
}

func TestASevenNoteScaleHasBothLayouts(t *testing.T) {
	count := map[string]map[int]bool{positional: {}, threePerString: {}}
	for _, p := range Placements(Guitar(), scale(t, "G major")) {
		count[p.System][p.Places[0].Pitch.Name.Class()] = true
	}
	if len(count[positional]) != 7 || len(count[threePerString]) != 7 {
		t.Errorf("degrees with a placement in position: %d, three on each string: %d; want 7 and 7",
			len(count[positional]), len(count[threePerString]))
	}
}

// G major from F♯ has three on each of a bass's strings and is in position
// too.
func TestALayoutThatIsBothIsListedOnce(t *testing.T) {
	listed := 0
	for _, p := range Placements(instrument(t, "bass"), scale(t, "G major")) {
		if fretsOf(p) == "2-3-5 2-3-5 2-4-5 2-4-5" {
			listed++
			if p.System != positional {
				t.Errorf("listed as %q", p.System)
			}
		}
	}
	if listed != 1 {
		t.Errorf("listed %d times", listed)
	}
}

// C♭5 and B4 are one key and two names: the scale's own name is kept.
func TestNotesKeepTheNamesOfTheirScale(t *testing.T) {
	p := placementAt(t, Guitar(), scale(t, "Ab minor pentatonic"), twoPerString, 11)
	var names []string
	for _, place := range p.Places {
		names = append(names, place.Pitch.String())
	}
	want := []string{"Eb3", "Gb3", "Ab3", "Cb4", "Db4", "Eb4", "Gb4", "Ab4", "Cb5", "Db5", "Eb5", "Gb5"}
	if diff := gocmp.Diff(want, names); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if place, ok := p.At(71); !ok || place.Pitch.String() != "Cb5" || place.Spot != (Spot{2, 12}) {
		t.Errorf("At(71) = %v, %v; want Cb5 at string 2, fret 12", place, ok)
	}
	if place, ok := p.At(72); ok {
		t.Errorf("At(72) = %v; C5 is not in the scale", place)
	}
}

func TestACapoMovesTheNut(t *testing.T) {
	in := Guitar()
	in.Capo = 3
	if got := fretsOf(placementAt(t, in, scale(t, "G minor pentatonic"), twoPerString, 0)); got != "0-3 0-2 0-2 0-2 0-3 0-3" {
		t.Errorf("G minor pentatonic with the capo at 3: %s", got)
	}
	for _, p := range Placements(in, scale(t, "G minor pentatonic")) {
		if p.Window.High > 19 {
			t.Errorf("window %v goes beyond the nineteenth fret from the capo", p.Window)
		}
	}
}

func TestWhatCannotBePlacedHasNoPlacements(t *testing.T) {
	broken := Guitar()
	broken.Frets = -1
	far := Guitar()
	far.Open[0], far.Frets = far.Open[5], 12
	far.Open[0].Octave = 6
	s := scale(t, "A minor pentatonic")
	empty := s
	empty.Notes = nil
	for name, got := range map[string][]Placement{
		"an instrument without frets":   Placements(broken, s),
		"no instrument":                 Placements(Instrument{}, s),
		"a scale without notes":         Placements(Guitar(), empty),
		"strings too far apart to join": Placements(far, s),
	} {
		if len(got) > 0 {
			t.Errorf("%s: %d placements", name, len(got))
		}
	}
}
