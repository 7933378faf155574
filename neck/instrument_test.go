package neck

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"heddle/pitch"
)

// The handbook rule of instrument makers: each fret stands 1/17.817 of what
// is left of the string beyond the one before.
func TestFretsStandWhereTheHandbookDivisorPutsThem(t *testing.T) {
	const divisor = 17.817
	for _, name := range Instruments() {
		in := instrument(t, name)
		left := in.ScaleMM
		for fret := 1; fret <= in.Frets; fret++ {
			left -= left / divisor
			if got := in.FretMM(fret); math.Abs(got-(in.ScaleMM-left)) > 0.01 {
				t.Errorf("%s, fret %d: %.3f mm, handbook %.3f mm", name, fret, got, in.ScaleMM-left)
			}
		}
		if got := in.FretMM(12); math.Abs(got-in.ScaleMM/2) > 1e-9 {
			t.Errorf("%s: the twelfth fret stands at %.3f mm, not at half the string", name, got)
		}
	}
}

// About four frets low on the neck, five from the fifth, six from the ninth
// (common practice); that one limit of 100 mm explains all three is our
// inference.
func TestOneReachExplainsFourFiveAndSixFrets(t *testing.T) {
	for _, c := range []struct {
		from, frets int
		mm          float64
	}{{1, 4, 97.31}, {5, 5, 100.15}, {9, 6, 96.65}} {
		in := Guitar()
		if got := fretsFrom(in, c.from); got != c.frets {
			t.Errorf("from fret %d: %d frets, want %d", c.from, got, c.frets)
		}
		if got := in.widthMM(c.from, c.from+c.frets-1); math.Abs(got-c.mm) > 0.01 {
			t.Errorf("%d frets from fret %d are %.2f mm, want %.2f", c.frets, c.from, got, c.mm)
		}
	}
}

func TestAPlacementFitsTheHandOrNot(t *testing.T) {
	for _, c := range []struct {
		begins int
		reach  float64
		fits   bool
	}{
		{5, 100, true},   // 5-8 is 77 mm
		{5, 76, false},   //
		{10, 100, true},  // 9-13 is 79 mm
		{0, 70, true},    // 1-3 and open strings: 66 mm
		{0, 60, false},   //
		{5, -1, false},   //
		{5, 1e300, true}, //
	} {
		p := placementAt(t, Guitar(), scale(t, "A minor pentatonic"), twoPerString, c.begins)
		if got := p.fits(Guitar(), c.reach); got != c.fits {
			t.Errorf("from fret %d with a reach of %g mm: %v, want %v", c.begins, c.reach, got, c.fits)
		}
	}
}

func TestInstrumentsAreKnownByTheNamesPeopleUse(t *testing.T) {
	for _, c := range []struct{ typed, name, tuning string }{
		{"guitar", "guitar", "E2 A2 D3 G3 B3 E4"},
		{" Guitar ", "guitar", "E2 A2 D3 G3 B3 E4"},
		{"6-string guitar", "guitar", "E2 A2 D3 G3 B3 E4"},
		{"seven-string guitar", "seven-string guitar", "B1 E2 A2 D3 G3 B3 E4"},
		{"7-string", "seven-string guitar", "B1 E2 A2 D3 G3 B3 E4"},
		{"7 String Guitar", "seven-string guitar", "B1 E2 A2 D3 G3 B3 E4"},
		{"eight string guitar", "eight-string guitar", "F#1 B1 E2 A2 D3 G3 B3 E4"},
		{"bass", "bass", "E1 A1 D2 G2"},
		{"bass guitar", "bass", "E1 A1 D2 G2"},
		{"5-string bass", "five-string bass", "B0 E1 A1 D2 G2"},
		{"six-string bass", "six-string bass", "B0 E1 A1 D2 G2 C3"},
		{"uke", "ukulele", "G4 C4 E4 A4"},
		{"mandolin", "mandolin", "G3 D4 A4 E5"},
		{"baritone guitar", "baritone guitar", "B1 E2 A2 D3 F#3 B3"},
	} {
		in, err := Named(c.typed)
		if err != nil {
			t.Errorf("%q: %v", c.typed, err)
			continue
		}
		if in.Name != c.name || FormatTuning(in.Open) != c.tuning {
			t.Errorf("%q is %s in %s, want %s in %s", c.typed, in.Name, FormatTuning(in.Open), c.name, c.tuning)
		}
	}
	for _, name := range Instruments() {
		if in, err := Named(name); err != nil || in.Name != name || in.Check() != nil {
			t.Errorf("%q: %v, %v, %v", name, in, err, in.Check())
		}
	}
}

func TestAnUnknownInstrumentIsNamedWithWhatWasMeant(t *testing.T) {
	for typed, meant := range map[string]string{
		"guitr":                    "guitar",
		"mandoline":                "mandolin",
		"ukelele":                  "ukulele",
		"five string base":         "five-string bass",
		"tuba":                     "",
		"":                         "",
		strings.Repeat("gui", 999): "",
	} {
		_, err := Named(typed)
		bad, ok := err.(*pitch.InputError)
		if !ok {
			t.Errorf("%.20q: %v", typed, err)
			continue
		}
		if bad.What != "instrument" || bad.Value != typed || bad.Nearest != meant {
			t.Errorf("%.20q: nearest %q, want %q", typed, bad.Nearest, meant)
		}
	}
}

func TestAnInstrumentThatCannotBeIsRefusedInOneLine(t *testing.T) {
	for _, c := range []struct {
		change func(*Instrument)
		want   string
	}{
		{func(in *Instrument) { in.Frets = 0 }, `frets "0": want 1 to 36`},
		{func(in *Instrument) { in.Frets = 37 }, `frets "37": want 1 to 36`},
		{func(in *Instrument) { in.ScaleMM = 64.8 }, `scale "64.8": want a scale length of 200 to 1200 mm`},
		{func(in *Instrument) { in.ScaleMM = math.NaN() }, `scale "NaN": want a scale length of 200 to 1200 mm`},
		{func(in *Instrument) { in.ScaleMM = math.Inf(1) }, `scale "+Inf": want a scale length of 200 to 1200 mm`},
		{func(in *Instrument) { in.Capo = 22 }, `capo "22": want 0 for none, or a fret below the last one, 22`},
		{func(in *Instrument) { in.Capo = -1 }, `capo "-1": want 0 for none, or a fret below the last one, 22`},
		{func(in *Instrument) { in.Open = nil }, `tuning "": want 1 to 12 strings, not 0`},
		{func(in *Instrument) { in.Open[0].Octave = 9 }, `tuning "E9": want open strings from C0 to E6`},
		{func(in *Instrument) {}, ""},
	} {
		in := Guitar()
		c.change(&in)
		got := ""
		if err := in.Check(); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

func TestSpotsOfAPitch(t *testing.T) {
	in := Guitar()
	if diff := cmp.Diff([]Spot{{1, 0}, {2, 5}, {3, 9}, {4, 14}, {5, 19}}, in.SpotsOf(64)); diff != "" {
		t.Errorf("E4 (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]Spot{{2, 5}, {3, 9}}, in.SpotsIn(64, Window{4, 9})); diff != "" {
		t.Errorf("E4 from fret 4 to 9 (-want +got):\n%s", diff)
	}
	in.Capo = 2
	if diff := cmp.Diff([]Spot{{2, 3}, {3, 7}, {4, 12}, {5, 17}}, in.SpotsOf(64)); diff != "" {
		t.Errorf("E4 with the capo at 2 (-want +got):\n%s", diff)
	}
	if got := in.SpotsOf(20); got != nil {
		t.Errorf("below the neck: %v", got)
	}
}

// Position marks of the trade, common practice.
func TestInlays(t *testing.T) {
	for _, c := range []struct {
		instrument string
		want       []int
	}{
		{"guitar", []int{3, 5, 7, 9, 12, 15, 17, 19, 21}},
		{"six-string bass", []int{3, 5, 7, 9, 12, 15, 17, 19, 21, 24}},
		{"mandolin", []int{3, 5, 7, 10, 12, 15, 17, 19}},
	} {
		if diff := cmp.Diff(c.want, instrument(t, c.instrument).Inlays()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.instrument, diff)
		}
	}
	if got := (Instrument{}).Inlays(); len(got) != 0 {
		t.Errorf("no neck: %v", got)
	}
}

// fretsFrom returns how many frets a usual hand covers from a fret up.
func fretsFrom(in Instrument, fret int) int {
	last := fret
	for last < in.LastFret() && reaches(in.widthMM(fret, last+1), DefaultReachMM) {
		last++
	}
	return last - fret + 1
}
