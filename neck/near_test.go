package neck

import (
	"math"
	"slices"
	"strings"
	"testing"

	"heddle/pitch"
)

// near ranks the home scale with superimposed ones on a guitar, with the
// usual reach.
func near(t testing.TB, home string, superimposed ...string) []Pair {
	t.Helper()
	var scales []pitch.Scale
	for _, name := range superimposed {
		scales = append(scales, scale(t, name))
	}
	pairs := Near(Guitar(), scale(t, home), scales, DefaultReachMM)
	if len(pairs) == 0 {
		t.Fatalf("no pairs for %s with %v", home, superimposed)
	}
	return pairs
}

// bestAt returns the best pair whose home placement has that window.
func bestAt(t testing.TB, pairs []Pair, w Window) Pair {
	t.Helper()
	for _, p := range pairs {
		if p.Home.Window == w {
			return p
		}
	}
	t.Fatalf("no home placement at %v", w)
	return Pair{}
}

// same reports whether two placements of one scale are the same.
func same(a, b Placement) bool {
	return a.Window == b.Window && a.System == b.System && a.Places[0] == b.Places[0]
}

func TestASemitoneUpLiesOneFretUp(t *testing.T) {
	p := bestAt(t, near(t, "G minor pentatonic", "Ab minor pentatonic"), Window{10, 13})
	if p.Superimposed[0].Window != (Window{11, 14}) || p.ShiftFrets != 1 || p.SharedSpots != 0 || !p.Joined || !p.Fits {
		t.Errorf("got %+v", p)
	}
	// 648 mm × (2^(−10/12) − 2^(−11/12)) and (… − 2^(−14/12)).
	if math.Abs(p.ShiftMM-20.41) > 0.01 || math.Abs(p.WidthMM-75.03) > 0.01 {
		t.Errorf("shift %.2f mm, width %.2f mm", p.ShiftMM, p.WidthMM)
	}
}

func TestEveryRankIsExplainedInALine(t *testing.T) {
	for _, c := range []struct {
		home         string
		superimposed []string
		at           Window
		want         string
	}{
		{"G minor pentatonic", []string{"Ab minor pentatonic"}, Window{10, 13},
			"first finger moves up 1 fret (20 mm); 10–14 spans 75 mm; no shared spots"},
		{"Ab minor pentatonic", []string{"G minor pentatonic"}, Window{18, 21},
			"first finger moves down 1 fret (14 mm); 17–21 spans 50 mm; no shared spots; high on the neck, which counts as 2.4 frets more"},
		{"G minor pentatonic", []string{"Ab minor pentatonic"}, Window{0, 3},
			"first finger stays; 1–4 spans 97 mm with open strings; no shared spots; near the nut, which counts as 1.2 frets more"},
		{"A minor pentatonic", []string{"A blues"}, Window{5, 8},
			"first finger stays; 5–8 spans 77 mm; 12 shared spots"},
		{"G minor pentatonic", []string{"Ab minor pentatonic", "C# minor pentatonic"}, Window{10, 13},
			"first finger moves within 1 fret (20 mm); 10–14 spans 75 mm; no shared spots"},
		{"A minor pentatonic", nil, Window{5, 8}, "5–8 spans 77 mm"},
	} {
		if got := bestAt(t, near(t, c.home, c.superimposed...), c.at).Why; got != c.want {
			t.Errorf("%s with %v:\ngot  %s\nwant %s", c.home, c.superimposed, got, c.want)
		}
	}
}

func TestEveryHomePlacementIsListedBestFirst(t *testing.T) {
	for _, scales := range [][]string{
		{"G minor pentatonic", "Db minor pentatonic"},
		{"G minor pentatonic", "Ab minor pentatonic", "F# blues"},
		{"G major", "Ab major"},
		{"D dorian", "Eb minor pentatonic"},
		{"A blues"},
	} {
		pairs := near(t, scales[0], scales[1:]...)
		for _, home := range Placements(Guitar(), scale(t, scales[0])) {
			listed := 0
			for _, p := range pairs {
				if same(home, p.Home) {
					listed++
				}
			}
			if listed < 1 || listed > perHome {
				t.Errorf("%v: home placement %v is listed %d times", scales, home.Window, listed)
			}
		}
		for i := range pairs[1:] {
			a, b := costOf(pairs[i]), costOf(pairs[i+1])
			if a > b || a == b && rankOf(pairs[i]).compare(rankOf(pairs[i+1])) > 0 {
				t.Errorf("%v: pair %d (%s) stands before a better one (%s)", scales, i, pairs[i].Why, pairs[i+1].Why)
			}
		}
	}
}

// costOf is what a pair costs, by its published figures alone: a move of a fret counts
// 1, each fret that home begins below 3 or above 12 counts 0.4.
func costOf(p Pair) float64 {
	off := 0
	for fret := p.Home.Window.Low; fret < 3; fret++ {
		off++
	}
	for fret := 12; fret < p.Home.Window.Low; fret++ {
		off++
	}
	return float64(p.ShiftFrets) + 0.4*float64(off)
}

// For the same movement, places in the middle of the neck come first, and the usual
// one is the lowest of them that fits the hand.
func TestTheMiddleOfTheNeckComesFirst(t *testing.T) {
	for _, root := range strings.Fields("C Db D Eb E F F# G Ab A Bb B") {
		for _, kind := range []string{"minor pentatonic", "major pentatonic", "blues", "major", "harmonic minor"} {
			for _, over := range [][]string{nil, {"Ab minor pentatonic"}, {"D major", "E dorian"}} {
				pairs := near(t, root+" "+kind, over...)
				middle := func(p Pair) bool { return p.Home.Window.Low >= 3 && p.Home.Window.Low <= 12 }
				for i, p := range pairs {
					if p.CostFrets != costOf(p) {
						t.Fatalf("%s costs %v, want %v", p.Why, p.CostFrets, costOf(p))
					}
					if strings.Contains(p.Why, "counts as") == middle(p) {
						t.Errorf("home at %v: %s", p.Home.Window, p.Why)
					}
					for _, later := range pairs[i+1:] {
						if !middle(p) && middle(later) && later.ShiftFrets <= p.ShiftFrets {
							t.Errorf("%s %s: %s comes before %s", root, kind, p.Why, later.Why)
						}
					}
				}
				usual, ok := Usual(pairs)
				for _, p := range pairs {
					if ok && !middle(usual) && middle(p) && p.Joined && p.Fits && p.ShiftFrets <= usual.ShiftFrets {
						t.Errorf("%s %s: %s is taken, not %s", root, kind, usual.Why, p.Why)
					}
				}
			}
		}
	}
}

// rankOf ranks a pair by its published figures alone.
func rankOf(p Pair) rank {
	return rank{shiftMM: p.ShiftMM, widthMM: p.WidthMM, shared: p.SharedSpots, mixed: mixedSystems(p)}
}

func mixedSystems(p Pair) bool {
	return slices.ContainsFunc(p.Superimposed, func(s Placement) bool {
		return len(s.Scale.Notes) == len(p.Home.Scale.Notes) && s.System != p.Home.System
	})
}

func TestAPairOfOneSystemIsListedWhereAMixedOneIsBest(t *testing.T) {
	pairs := near(t, "C major", "Db major", "D major")
	mixed := 0
	for _, home := range Placements(Guitar(), scale(t, "C major")) {
		listed := slices.DeleteFunc(slices.Clone(pairs), func(p Pair) bool { return !same(p.Home, home) })
		if !mixedSystems(listed[0]) {
			continue
		}
		mixed++
		if !slices.ContainsFunc(listed, func(p Pair) bool { return !mixedSystems(p) }) {
			t.Errorf("home %s at %v has no partner of its own system", home.System, home.Window)
		}
	}
	if mixed == 0 {
		t.Error("no home placement has its best partner in another system: nothing was tested")
	}
}

// The best pair of each home placement against every combination there is.
func TestNoCombinationBeatsTheBest(t *testing.T) {
	for _, scales := range [][]string{
		{"G minor pentatonic", "Ab minor pentatonic"},
		{"G minor pentatonic", "B minor pentatonic", "Eb minor pentatonic"},
		{"G major", "C# minor pentatonic", "E hirajoshi"},
		{"A blues", "Bb minor pentatonic", "C# major triad", "F# minor pentatonic"},
	} {
		pairs := near(t, scales[0], scales[1:]...)
		var choices [][]Placement
		for _, name := range scales[1:] {
			choices = append(choices, Placements(Guitar(), scale(t, name)))
		}
		for _, home := range Placements(Guitar(), scale(t, scales[0])) {
			best := rank{shiftMM: math.Inf(1)}
			eachCombination(choices, nil, func(group []Placement) {
				if r := measure(Guitar(), home, group); r.compare(best) < 0 {
					best = r
				}
			})
			i := slices.IndexFunc(pairs, func(p Pair) bool { return same(p.Home, home) })
			if got := rankOf(pairs[i]); got.compare(best) != 0 {
				t.Errorf("%v with home at %v: best is %+v, exhaustive search finds %+v", scales, home.Window, got, best)
			}
		}
	}
}

// eachCombination calls do with each way to take one of every choice.
func eachCombination(choices [][]Placement, taken []Placement, do func([]Placement)) {
	if len(taken) == len(choices) {
		do(taken)
		return
	}
	for _, p := range choices[len(taken)] {
		eachCombination(choices, append(taken[:len(taken):len(taken)], p), do)
	}
}

// measure ranks a group from its places alone.
func measure(in Instrument, home Placement, group []Placement) rank {
	first, last, high := home.FirstFinger(), home.FirstFinger(), home.Window.High
	r := rank{}
	for _, p := range group {
		first, last, high = min(first, p.FirstFinger()), max(last, p.FirstFinger()), max(high, p.Window.High)
		for _, place := range p.AllPlaces() {
			if slices.ContainsFunc(home.AllPlaces(), func(h Place) bool { return h.Spot == place.Spot }) {
				r.shared++
			}
		}
	}
	r.shiftMM, r.widthMM = in.FretMM(last)-in.FretMM(first), in.FretMM(high)-in.FretMM(first)
	r.mixed = mixedSystems(Pair{Home: home, Superimposed: group})
	return r
}

func TestAPairIsJoinedWhereTheFirstFingerReaches(t *testing.T) {
	in, home, over := Guitar(), scale(t, "G minor pentatonic"), []pitch.Scale{scale(t, "Ab minor pentatonic")}
	for _, p := range Near(in, home, over, 20) {
		if want := math.Round(p.ShiftMM) <= 20; p.Joined != want {
			t.Errorf("%s: joined is %v", p.Why, p.Joined)
		}
		if !p.Joined && !strings.HasSuffix(p.Why, "; out of reach") {
			t.Errorf("not said to be out of reach: %s", p.Why)
		}
	}
	if got := Near(in, home, over, math.NaN()); got != nil {
		t.Errorf("a reach that is not a number joins %d pairs", len(got))
	}
	in.Frets = 1
	if got := Near(in, home, over, 100); got != nil {
		t.Errorf("a neck of one fret has %d pairs", len(got))
	}
}

func TestChoosingByFret(t *testing.T) {
	pentatonics := near(t, "G minor pentatonic", "Ab minor pentatonic")
	for _, c := range []struct {
		fret               int
		home, superimposed Window
	}{
		{10, Window{10, 13}, Window{11, 14}},
		{3, Window{3, 6}, Window{4, 7}},
		{9, Window{10, 13}, Window{11, 14}},
		{8, Window{7, 11}, Window{8, 12}},
		{0, Window{0, 3}, Window{1, 4}},
		{36, Window{17, 20}, Window{18, 21}},
	} {
		p, ok := Choose(pentatonics, c.fret)
		if !ok || p.Home.Window != c.home || p.Superimposed[0].Window != c.superimposed {
			t.Errorf("near fret %d: %v with %v (%v), want %v with %v", c.fret, p.Home.Window, p.Superimposed[0].Window, ok, c.home, c.superimposed)
		}
	}
	// The first finger stops fret 1 of F major with open strings and without:
	// without, it is a stretch of five frets at the nut.
	for _, fret := range []int{0, 1} {
		if p, ok := Choose(near(t, "F major"), fret); !ok || p.Home.Window != (Window{0, 3}) || !p.Fits {
			t.Errorf("F major near fret %d: %v", fret, p.Home.Window)
		}
	}
	// A first finger at fret 3 plays G major in position (112 mm) or three on
	// each string (137 mm): both stretch, and near the nut there is no other.
	if p, ok := Choose(near(t, "G major"), 3); !ok || p.Home.Window != (Window{3, 7}) || p.Fits {
		t.Errorf("G major near fret 3: %v, fits %v", p.Home.Window, p.Fits)
	}
}

// Of pairs under the same first finger the one without a stretch is played,
// even if the hand moves a little more.
func TestAPairThatFitsTheHandComesFirst(t *testing.T) {
	hand := func(low, high int) Placement { return Placement{Window: Window{low, high}} }
	stretched := Pair{Home: hand(5, 10), ShiftFrets: 0, ShiftMM: 0, WidthMM: 122, Joined: true}
	easy := Pair{Home: hand(5, 8), ShiftFrets: 1, CostFrets: 1, ShiftMM: 27, WidthMM: 100, Joined: true, Fits: true}
	wide := Pair{Home: hand(5, 8), ShiftFrets: 1, CostFrets: 1, ShiftMM: 26, WidthMM: 106, Joined: true, Fits: true}
	higher := Pair{Home: hand(7, 10), ShiftFrets: 1, CostFrets: 1, ShiftMM: 24, WidthMM: 108, Joined: true, Fits: true}
	unjoined := Pair{Home: hand(4, 7), ShiftFrets: 9, ShiftMM: 200, WidthMM: 300, Fits: true}
	pairs := []Pair{stretched, higher, wide, easy, unjoined}
	for _, c := range []struct {
		fret int
		want Pair
	}{{5, wide}, {4, wide}, {8, higher}, {7, higher}} {
		if got, ok := Choose(pairs, c.fret); !ok || got.WidthMM != c.want.WidthMM {
			t.Errorf("near fret %d: %+v", c.fret, got)
		}
	}
	if got, ok := Usual(pairs); !ok || got.WidthMM != wide.WidthMM {
		t.Errorf("usual: %+v", got)
	}
	if got, ok := Choose(pairs[:1], 5); !ok || got.Fits {
		t.Errorf("where nothing fits: %+v, %v", got, ok)
	}
}

func TestWithoutAFretTheNearestInTheMiddleIsTaken(t *testing.T) {
	for _, c := range []struct {
		scales []string
		home   Window
	}{
		{[]string{"G minor pentatonic", "Ab minor pentatonic"}, Window{3, 6}},
		{[]string{"A minor pentatonic", "Bb minor pentatonic"}, Window{5, 8}},
		{[]string{"B minor pentatonic", "C minor pentatonic"}, Window{4, 7}},
		{[]string{"A minor pentatonic"}, Window{5, 8}},
		// At the nut C♯ minor pentatonic would stretch from fret 1 to 5.
		{[]string{"G minor pentatonic", "Ab minor pentatonic", "C# minor pentatonic"}, Window{3, 6}},
	} {
		if p, ok := Usual(near(t, c.scales[0], c.scales[1:]...)); !ok || p.Home.Window != c.home {
			t.Errorf("%v: %v (%s), want %v", c.scales, p.Home.Window, p.Why, c.home)
		}
	}
}

// A spec keeps the fret, not the placement, so the fret must bring back the
// placement that was taken when none was asked for.
func TestTheFretOfTheUsualPairBringsItBack(t *testing.T) {
	cases := 0
	for _, root := range []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"} {
		for _, kind := range []string{"minor pentatonic", "major pentatonic", "blues", "major", "dorian", "harmonic minor"} {
			for _, over := range [][]string{nil, {"Ab minor pentatonic"}} {
				pairs := near(t, root+" "+kind, over...)
				usual, ok := Usual(pairs)
				if !ok {
					continue
				}
				cases++
				fret := FretOf(pairs, usual)
				if got, ok := Choose(pairs, fret); !ok || !got.sameSpots(usual) {
					t.Errorf("%s %s with %v: fret %d brings %v, the usual one is %v", root, kind, over, fret, got.Home.Window, usual.Home.Window)
				}
			}
		}
	}
	if cases < 100 {
		t.Errorf("only %d cases", cases)
	}
}

func TestNothingIsChosenWhereNothingIsJoined(t *testing.T) {
	apart := Near(Guitar(), scale(t, "G minor pentatonic"), []pitch.Scale{scale(t, "Ab minor pentatonic")}, -1)
	if len(apart) == 0 {
		t.Fatal("no pairs")
	}
	for _, pairs := range [][]Pair{nil, apart} {
		if _, ok := Choose(pairs, 5); ok {
			t.Error("Choose found one")
		}
		if _, ok := Usual(pairs); ok {
			t.Error("Usual found one")
		}
	}
}

// Eleven superimposed scales have some 28¹² combinations; the work must not
// grow with them.
func TestManySuperimposedScalesStayCheap(t *testing.T) {
	var names []string
	for _, root := range strings.Fields("Ab A Bb B C C# D Eb E F F#") {
		names = append(names, root+" major")
	}
	allocated := testing.AllocsPerRun(1, func() { near(t, "G major", names...) })
	if allocated > 20_000 {
		t.Errorf("%.0f allocations", allocated)
	}
}
