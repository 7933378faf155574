package pitch_test

import (
	"strings"
	"testing"

	"heddle/pitch"
)

// What scales share is common practice: the modes of a major scale, and the
// few roots of the symmetrical scales.
func TestKnownAsNamesEachTypeOnce(t *testing.T) {
	for _, c := range []struct {
		scale, want string
	}{
		{"C major", "C major; D dorian; E phrygian; F lydian; G mixolydian; A natural minor; B locrian"},
		{"C whole tone", "whole tone from C, D, E, F♯, G♯ or B♭"},
		{"C chromatic", "chromatic from any of them"},
		{"C octatonic half-whole", "octatonic half-whole from C, E♭, F♯ or A; octatonic whole-half from D♭, E, G or B♭"},
		{"C Messiaen mode 5", "Messiaen mode 5 from C or F♯"},
	} {
		got := strings.Join(pitch.Collect(mustScale(t, c.scale)).KnownAs(pitch.English), "; ")
		if got != c.want {
			t.Errorf("%s is known as %s, want %s", c.scale, got, c.want)
		}
	}
}
