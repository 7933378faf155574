package neck

import (
	"fmt"
	"strings"
	"testing"

	"heddle/pitch"
)

// The scales the tests speak of, by their degrees.
var degreesOf = map[string]string{
	"minor pentatonic": "1 b3 4 5 b7",
	"major pentatonic": "1 2 3 5 6",
	"hirajoshi":        "1 2 b3 5 b6",
	"blues":            "1 b3 4 b5 5 b7",
	"whole tone":       "1 2 3 #4 #5 b7",
	"major":            "1 2 3 4 5 6 7",
	"dorian":           "1 2 b3 4 5 6 b7",
	"harmonic minor":   "1 2 b3 4 5 b6 7",
	"octatonic":        "1 2 b3 4 b5 b6 6 7",
	"chromatic":        "1 b2 2 b3 3 4 b5 5 b6 6 b7 7",
	"major triad":      "1 3 5",
}

// scale spells a scale from its name: "G minor pentatonic".
func scale(t testing.TB, name string) pitch.Scale {
	t.Helper()
	root, kind, _ := strings.Cut(name, " ")
	r, err := pitch.ParseName(root)
	if err != nil || degreesOf[kind] == "" {
		t.Fatalf("no scale %q for the tests", name)
	}
	kindOf := pitch.Type{Name: kind}
	for _, word := range strings.Fields(degreesOf[kind]) {
		d := pitch.Degree{}
		number := strings.TrimLeft(word, "b#")
		d.Alter = strings.Count(word, "#") - strings.Count(word, "b")
		if _, err := fmt.Sscan(number, &d.Number); err != nil {
			t.Fatal(err)
		}
		kindOf.Degrees = append(kindOf.Degrees, d)
	}
	return pitch.NewScale(r, kindOf)
}

// instrument returns an instrument by name, with a tuning of its own if one
// is given: "guitar D2 A2 D3 G3 B3 E4".
func instrument(t testing.TB, text string) Instrument {
	t.Helper()
	cut := strings.IndexAny(text, "ABCDEFG")
	name, tuning := text, ""
	if cut >= 0 {
		name, tuning = text[:cut], text[cut:]
	}
	in, err := Named(name)
	if err != nil {
		t.Fatal(err)
	}
	if tuning != "" {
		if in.Open, err = ParseTuning(tuning, Instrument{}); err != nil {
			t.Fatal(err)
		}
	}
	return in
}

// fretsOf writes a placement's frets as a player says them, string by string
// from the lowest up: "5-8 5-7 5-7 5-7 5-8 5-8".
func fretsOf(p Placement) string {
	var b strings.Builder
	for i, place := range p.Places {
		switch {
		case i == 0:
		case place.String == p.Places[i-1].String:
			b.WriteByte('-')
		default:
			b.WriteByte(' ')
		}
		fmt.Fprint(&b, place.Fret)
	}
	return b.String()
}

// placementAt returns the placement of the system whose run begins at the
// fret.
func placementAt(t testing.TB, in Instrument, s pitch.Scale, system string, fret int) Placement {
	t.Helper()
	for _, p := range Placements(in, s) {
		if p.System == system && p.Places[0].Fret == fret {
			return p
		}
	}
	t.Fatalf("%s on %s: no placement %s begins at fret %d", s.Name(), in.Name, system, fret)
	return Placement{}
}
