package pitch

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// readInterval reads a text that is nothing but an interval.
func readInterval(s string) (Interval, bool) {
	i, rest, ok := cutInterval(strings.Fields(s))
	return i, ok && len(rest) == 0
}

func TestIntervalsAreReadInAPlayersWords(t *testing.T) {
	// Letters and semitones of intervals: common practice.
	for _, row := range []struct {
		text             string
		steps, semitones int
		words            string
	}{
		{"semitone up", 1, 1, "a semitone up"},
		{"half step up", 1, 1, "a semitone up"},
		{"half-step down", -1, -1, "a semitone down"},
		{"whole tone down", -1, -2, "a whole tone down"},
		{"tone up", 1, 2, "a whole tone up"},
		{"tritone", 3, 6, "a tritone away"},
		{"tritone down", -3, -6, "a tritone down"},
		{"minor third up", 2, 3, "a minor third up"},
		{"m3 up", 2, 3, "a minor third up"},
		{"M3 up", 2, 4, "a major third up"},
		{"min3 down", -2, -3, "a minor third down"},
		{"minor 3rd", 2, 3, "a minor third up"},
		{"perfect fourth down", -3, -5, "a fourth down"},
		{"fifth up", 4, 7, "a fifth up"},
		{"P5 up", 4, 7, "a fifth up"},
		{"aug4 up", 3, 6, "an augmented fourth up"},
		{"diminished fifth up", 4, 6, "a diminished fifth up"},
		{"up a minor third", 2, 3, "a minor third up"},
		{"down an augmented second", -1, -3, "an augmented second down"},
		{"octave up", 7, 12, "an octave up"},
		{"minor ninth up", 8, 13, "a minor ninth up"},
		{"unison", 0, 0, "in unison"},
		{"3 semitones up", 2, 3, "a minor third up"},
		{"five semitones down", -3, -5, "a fourth down"},
		{"2 octaves down", -14, -24, "a fifteenth down"},
		{"Minor Third Up", 2, 3, "a minor third up"},
		{"minor third above", 2, 3, "a minor third up"},
	} {
		i, ok := readInterval(row.text)
		if !ok {
			t.Errorf("%s is not read", row.text)
			continue
		}
		if i.Steps != row.steps || i.Semitones != row.semitones || i.Words() != row.words {
			t.Errorf("%s is %d letters, %d semitones, %q; want %d, %d, %q", row.text, i.Steps, i.Semitones, i.Words(), row.steps, row.semitones, row.words)
		}
	}
}

func TestSlipsInIntervalsAreNamed(t *testing.T) {
	for typed, nearest := range map[string]string{
		"semitne up": "semitone up", "minor thrid up": "minor third up", "tritonne": "tritone", "a minr third down": "minor third down",
		"": "", "up": "", "major fifth up": "major sixth up", "perfect third up": "", "third up": "",
		"99 semitones up": "semitone up", "minor 99th up": "minor sixth up", "doubly minor third up": "minor third up", "semitone up down": "semitone down", "m0": "", "+3 semitones": "",
	} {
		if _, ok := readInterval(typed); ok {
			t.Errorf("%q is read", typed)
		}
		if got := nearestInterval(typed); got != nearest {
			t.Errorf("%q is near %q, want %q", typed, got, nearest)
		}
	}
}

func TestIntervalsKeepTheirLetter(t *testing.T) {
	for _, row := range []struct{ from, interval, to string }{
		{"G", "semitone up", "Ab"}, {"E", "minor third up", "G"}, {"B", "semitone up", "C"}, {"F", "augmented fourth up", "B"},
		{"C", "diminished fifth up", "Gb"}, {"C", "semitone down", "B"}, {"Eb", "semitone up", "Fb"}, {"G#", "major third up", "B#"},
	} {
		i, ok := readInterval(row.interval)
		from, err := ParseName(row.from)
		if !ok || err != nil {
			t.Fatal(row.interval, err)
		}
		if got := i.From(from).String(); got != row.to {
			t.Errorf("%s from %s is %s, want %s", row.interval, row.from, got, row.to)
		}
	}
}

func TestLawAnIntervalIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps := rapid.IntRange(0, 14).Draw(t, "steps")
		i := Interval{Steps: steps, Semitones: rise(steps) + rapid.IntRange(-2, 2).Draw(t, "alter")}
		if i.down() || rapid.Bool().Draw(t, "down") {
			i = i.inverse()
		}
		if read, ok := readInterval(i.plain()); !ok || read != i {
			t.Fatalf("%q reads as %+v, %v", i.plain(), read, ok)
		}
	})
}
