package pitch_test

import (
	"strings"
	"testing"

	"heddle/pitch"
)

// mustScale reads a scale that a test is written with.
func mustScale(t testing.TB, s string) pitch.Scale {
	t.Helper()
	scale, err := pitch.ParseScale(s)
	if err != nil {
		t.Fatal(err)
	}
	return scale
}

// mustChord reads a chord that a test is written with.
func mustChord(t testing.TB, s string) pitch.Chord {
	t.Helper()
	chord, err := pitch.ParseChord(s)
	if err != nil {
		t.Fatal(err)
	}
	return chord
}

// mustName reads a note name that a test is written with.
func mustName(t testing.TB, s string) pitch.Name {
	t.Helper()
	n, err := pitch.ParseName(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// spell writes names as "G Bb C".
func spell(names []pitch.Name) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = n.String()
	}
	return strings.Join(words, " ")
}

// digits writes a prime form or vector as "02479".
func digits(classes []int) string {
	var s strings.Builder
	for _, c := range classes {
		s.WriteByte("0123456789te"[c])
	}
	return s.String()
}

// Source: Forte, The Structure of Atonal Music (1973), table of set classes.
func TestScalesHaveTheirPlaceInFortesTable(t *testing.T) {
	for _, row := range []struct{ scale, forte, prime, vector string }{
		{"A minor pentatonic", "5-35", "02479", "032140"},
		{"C major pentatonic", "5-35", "02479", "032140"},
		{"A blues", "6-Z47", "012479", "233241"},
		{"C major blues", "6-Z47", "012479", "233241"},
		{"C whole tone", "6-35", "02468t", "060603"},
		{"C augmented", "6-20", "014589", "303630"},
		{"C octatonic half-whole", "8-28", "0134679t", "448444"},
		{"C octatonic whole-half", "8-28", "0134679t", "448444"},
		{"C major", "7-35", "013568t", "254361"},
		{"C dorian", "7-35", "013568t", "254361"},
		{"C melodic minor", "7-34", "013468t", "254442"},
		{"C altered", "7-34", "013468t", "254442"},
		{"C harmonic minor", "7-32", "0134689", "335442"},
		{"C harmonic major", "7-32", "0134689", "335442"},
	} {
		c := pitch.Collect(mustScale(t, row.scale))
		if c.Forte != row.forte || digits(c.PrimeForm) != row.prime || digits(c.IntervalVector[:]) != row.vector {
			t.Errorf("%s is %s %s %s, want %s %s %s", row.scale, c.Forte, digits(c.PrimeForm), digits(c.IntervalVector[:]), row.forte, row.prime, row.vector)
		}
	}
}

// Source: Messiaen, Technique de mon langage musical (1944); the set classes
// are computed.
func TestMessiaensModesAreKnown(t *testing.T) {
	for i, row := range []struct {
		scale, forte   string
		transpositions int
	}{
		{"C whole tone", "6-35", 2},
		{"C octatonic half-whole", "8-28", 3},
		{"C Messiaen mode 3", "9-12", 4},
		{"C Messiaen mode 4", "8-9", 6},
		{"C Messiaen mode 5", "6-7", 6},
		{"C Messiaen mode 6", "8-25", 6},
		{"C Messiaen mode 7", "10-6", 6},
	} {
		c := pitch.Collect(mustScale(t, row.scale))
		if c.Messiaen != i+1 || c.Forte != row.forte || c.Transpositions != row.transpositions {
			t.Errorf("%s is mode %d, %s, %d transpositions; want mode %d, %s, %d", row.scale, c.Messiaen, c.Forte, c.Transpositions, i+1, row.forte, row.transpositions)
		}
	}
	if got := spell(mustScale(t, "C Messiaen mode 7").Notes); got != "C Db D Eb F F# G Ab A B" {
		t.Errorf("mode 7 on C is %s, want 0 1 2 3 5 6 7 8 9 11", got)
	}
}

// Source: computed; the class names are Forte's (1973). For k = 6: a tritone
// is three whole tones, and two five-note scales with no common note make ten
// (common practice).
func TestTwoMinorPentatonicsMakeWhatTheirDistanceSays(t *testing.T) {
	home := mustScale(t, "G minor pentatonic")
	for _, row := range []struct {
		up, down, forte  string
		shared, messiaen int
	}{
		{"semitone up", "semitone down", "10-5", 0, 0},
		{"whole tone up", "whole tone down", "7-35", 3, 0},
		{"minor third up", "minor third down", "8-23", 2, 0},
		{"major third up", "major third down", "9-9", 1, 0},
		{"perfect fourth up", "perfect fourth down", "6-32", 4, 0},
		{"tritone up", "tritone down", "10-6", 0, 7},
	} {
		for _, interval := range []string{row.up, row.down} {
			other, err := pitch.Relative(home, interval)
			if err != nil {
				t.Fatal(err)
			}
			c := pitch.Collect(home, other.Scale)
			if c.Forte != row.forte || 10-c.Cardinality() != row.shared || c.Messiaen != row.messiaen {
				t.Errorf("%s: %s with %d shared notes, Messiaen %d; want %s with %d, %d", interval, c.Forte, 10-c.Cardinality(), c.Messiaen, row.forte, row.shared, row.messiaen)
			}
		}
	}
}

// Source: computed from the chord's degrees.
func TestEFlatMinorPentatonicOverA7(t *testing.T) {
	a7 := mustChord(t, "A7")
	var degrees []string
	for _, n := range mustScale(t, "Eb minor pentatonic").Notes {
		degrees = append(degrees, a7.Degree(n, mustScale(t, "Eb minor pentatonic")).String())
	}
	if got := strings.Join(degrees, " "); got != "#11 13 7 b9 3" {
		t.Errorf("degrees are %s", got)
	}
	if f := a7.Function(mustName(t, "Ab"), pitch.Scale{}); f != pitch.Outside {
		t.Errorf("the major seventh over A7 is %s, want outside", f)
	}
}
