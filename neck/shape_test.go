package neck

import "testing"

// Shapes of the trade: the five pentatonic placements by the chord on their
// own root (common practice).
func TestShapesAndRootsAreThoseOfTheTrade(t *testing.T) {
	for _, c := range []struct {
		scale, system          string
		begins                 int
		shape                  string
		rootString, rootFinger int
	}{
		{"A minor pentatonic", twoPerString, 5, "E", 6, 1},
		{"A minor pentatonic", twoPerString, 8, "D", 4, 1},
		{"A minor pentatonic", twoPerString, 10, "C", 5, 4},
		{"A minor pentatonic", twoPerString, 12, "A", 5, 1},
		{"A minor pentatonic", twoPerString, 0, "A", 5, 0},
		{"A minor pentatonic", twoPerString, 3, "G", 6, 4},
		{"G minor pentatonic", twoPerString, 10, "A", 5, 1},
		{"E minor pentatonic", twoPerString, 0, "E", 6, 0},
		{"C major pentatonic", twoPerString, 0, "C", 5, 3},
		{"C major pentatonic", twoPerString, 3, "A", 5, 2},
		{"C major pentatonic", twoPerString, 5, "G", 6, 4},
		{"C major pentatonic", twoPerString, 8, "E", 6, 2},
		{"C major pentatonic", twoPerString, 10, "D", 4, 2},
		{"G major", positional, 2, "E", 6, 2},
		{"G major", positional, 5, "D", 4, 2},
		{"G major", positional, 7, "C", 5, 4},
		{"G major", positional, 10, "A", 5, 2},
		{"G major", positional, 12, "G", 6, 4},
		{"G major", threePerString, 3, "", 6, 1},
		{"A blues", positional, 5, "", 6, 1},
	} {
		p := placementAt(t, Guitar(), scale(t, c.scale), c.system, c.begins)
		if p.Shape != c.shape || p.RootString != c.rootString || p.RootFinger != c.rootFinger {
			t.Errorf("%s from fret %d: shape %q, root on string %d, finger %d; want %q, %d, %d",
				c.scale, c.begins, p.Shape, p.RootString, p.RootFinger, c.shape, c.rootString, c.rootFinger)
		}
	}
}

// A seventh string below leaves the shapes of the upper six as they are; a
// bass has none.
func TestShapesBelongToAGuitarsStrings(t *testing.T) {
	for _, c := range []struct {
		instrument string
		begins     int
		shape      string
	}{
		{"seven-string guitar", 5, "E"},
		{"baritone guitar", 10, "E"},
		{"bass", 5, ""},
		{"six-string bass", 5, ""},
	} {
		p := placementAt(t, instrument(t, c.instrument), scale(t, "A minor pentatonic"), twoPerString, c.begins)
		if p.Shape != c.shape {
			t.Errorf("A minor pentatonic on %s from fret %d: shape %q, want %q", c.instrument, c.begins, p.Shape, c.shape)
		}
	}
}
