package pluck

import (
	"math"
	"testing"

	"heddle/finger"
)

// decayOf returns how fast a partial of a note falls, in dB/s, between two
// times.
func decayOf(s []float32, hz, from, to float64) float64 {
	level := func(at float64) float64 {
		p := partialAt(s, int(at*48000), 4800, hz, 48000)
		return 20 * math.Log10(math.Hypot(real(p), imag(p)))
	}
	return (level(from) - level(to)) / (to - from)
}

// Partials of a stiff string lie at k·f₀·√((1+B·k²)/(1+B)) (Fletcher and Rossing
// 1998, eq. 2.68), measured in the sound.
func TestPartialsAreStretchedAsOnAStiffString(t *testing.T) {
	for _, c := range []struct {
		str  int
		fret float64
	}{{6, 0}, {5, 0}, {4, 7}, {2, 1}} {
		open := guitarStrings[c.str-1]
		f0 := 440 * math.Exp2((open+c.fret-69)/12)
		_, b := ElectricClean.strung(open, c.fret)
		s := playNotes(1.2, note(c.str, c.fret, 0, 1.2, finger.Down))
		for _, k := range []float64{4, 8} {
			want := k * f0 * math.Sqrt((1+b*k*k)/(1+b))
			if off := cents(measuredHz(s, want, 48000), want); math.Abs(off) > 4 {
				t.Errorf("string %d fret %g: partial %g is %.1f cents off", c.str, c.fret, k, off)
			}
			if k == 8 && cents(want, k*f0) < 2 {
				t.Errorf("string %d fret %g: partial 8 is stretched by %.1f cents only", c.str, c.fret, cents(want, k*f0))
			}
		}
	}
}

// High partials of a recorded electric guitar fall by 30 to 70 dB/s, its
// fundamental by 6 to 16 (doc/sound.md).
func TestHighPartialsDieFirst(t *testing.T) {
	for _, c := range []struct {
		str  int
		fret float64
	}{{5, 0}, {2, 1}, {1, 5}} {
		hz := 440 * math.Exp2((guitarStrings[c.str-1]+c.fret-69)/12)
		s := playNotes(1, note(c.str, c.fret, 0, 1, finger.Down))
		if d := decayOf(s, hz, 0.08, 0.58); d < 4 || d > 18 {
			t.Errorf("string %d fret %g: the fundamental falls by %.0f dB/s", c.str, c.fret, d)
		}
		for _, k := range []float64{4, 6} {
			if d := decayOf(s, k*hz, 0.08, 0.58); d < 25 || d > 100 {
				t.Errorf("string %d fret %g: partial %g falls by %.0f dB/s", c.str, c.fret, k, d)
			}
		}
	}
}

func TestANoteFallsFastAndThenSlowly(t *testing.T) {
	for _, str := range []int{2, 4, 5} {
		s := playNotes(2.5, note(str, 2, 0, 2.5, finger.Down))
		early := (levelDB(s, 0.03, 0.08) - levelDB(s, 0.28, 0.33)) / 0.25
		late := (levelDB(s, 1.2, 1.25) - levelDB(s, 2.2, 2.25)) / 1
		if early < 1.4*late {
			t.Errorf("string %d falls by %.1f dB/s at first and %.1f later", str, early, late)
		}
	}
}

func TestAPalmTakesTheHighPartialsFirst(t *testing.T) {
	muted := note(5, 2, 0, 1, finger.Down)
	muted.Mute = 0.7
	a, b := playNotes(1, note(5, 2, 0, 1, finger.Down)), playNotes(1, muted)
	if fall := levelDB(b, 0.02, 0.07) - levelDB(b, 0.4, 0.5); fall < 25 {
		t.Errorf("a muted note falls by %.0f dB in half a second, want a thud", fall)
	}
	hz := 123.4708
	if open, closed := centroid(a, hz), centroid(b, hz); closed > 0.8*open {
		t.Errorf("a muted note's centroid is %.0f Hz, an open one's %.0f", closed, open)
	}
}

// A bend of a tone and its release, and vibrato: the pitch goes where the path
// says and is in tune there.
func TestAPathMovesThePitch(t *testing.T) {
	n := note(3, 7, 0, 2, finger.Down)
	n.Path = []Move{{At: 19200, Over: 7200, Semitones: 2}, {At: 48000, Over: 4800}}
	s := playNotes(2, n)
	for _, c := range []struct{ from, key float64 }{{0.05, 62}, {0.6, 64}, {1.15, 62}} {
		want := 440 * math.Exp2((c.key-69)/12)
		if off := cents(measuredHz(s[int(c.from*48000):], want, 48000), want); math.Abs(off) > 1.5 {
			t.Errorf("%.2f s after the stroke the string is %.2f cents off", c.from, off)
		}
	}
}

// The hand squeaks where it shifts along a wound string, and only there.
func TestAShiftIsHeardOnWoundStrings(t *testing.T) {
	squeak := func(str int, mm float64) float64 {
		n := note(str, 7, 0.5, 1, finger.Down)
		n.Shift = mm
		return levelDB(playNotes(1, n), 0.44, 0.49)
	}
	if l := squeak(5, 90); l < -75 || l > -35 {
		t.Errorf("a shift on the A string squeaks at %.0f dB", l)
	}
	if l := squeak(1, 90); l > -100 {
		t.Errorf("a shift on the plain first string squeaks at %.0f dB", l)
	}
	if l := squeak(5, 5); l > -100 {
		t.Errorf("a finger that rolls squeaks at %.0f dB", l)
	}
}
