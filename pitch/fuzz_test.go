package pitch_test

import (
	"errors"
	"strings"
	"testing"

	"heddle/pitch"
)

// checkRefusal asserts that a parser's error is an InputError in one line.
func checkRefusal(t *testing.T, typed string, err error) {
	t.Helper()
	var input *pitch.InputError
	if !errors.As(err, &input) || input.Value != typed || strings.Contains(err.Error(), "\n") {
		t.Errorf("%q is refused with %v", typed, err)
	}
}

func FuzzParseName(f *testing.F) {
	for _, s := range []string{"C", "F#", "Bb", "E♭♭", "Gx", "", "H"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, err := pitch.ParseName(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		if again, err := pitch.ParseName(n.String()); err != nil || again != n {
			t.Errorf("%q reads as %s, which reads as %s, %v", s, n, again, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"C4", "F#-1", "Bb3", "Cb5", "", "C+4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := pitch.Parse(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		if again, err := pitch.Parse(p.String()); err != nil || again != p {
			t.Errorf("%q reads as %s, which reads as %s, %v", s, p, again, err)
		}
	})
}

func FuzzParseScale(f *testing.F) {
	for _, s := range []string{"G minor pentatonic", "F# 1 b3 4 #5 b7", "Bb blues scale", "A half-whole", "C 1 2 2", "G"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		scale, err := pitch.ParseScale(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		again, err := pitch.ParseScale(scale.Name())
		if err != nil || again.Name() != scale.Name() || spell(again.Notes) != spell(scale.Notes) {
			t.Errorf("%q reads as %s, which reads as %s, %v", s, scale.Name(), again.Name(), err)
		}
		c := scale.Chord()
		if _, err := pitch.ParseChord(c.Symbol); err != nil {
			t.Errorf("%s has the chord %q: %v", scale.Name(), c.Symbol, err)
		}
		for _, n := range tones(c) {
			if _, ok := scale.Named(n.Class()); !ok {
				t.Errorf("%s has the chord %s, but no %s", scale.Name(), c.Name(), n)
			}
		}
		pitch.Collect(scale)
	})
}

func FuzzRelative(f *testing.F) {
	for _, s := range []string{"semitone up", "tritone", "minor third up major pentatonic", "Ab minor pentatonic", "up a 4-fold augmented fifth", "a", "A whole tone", "b5", "#11 triad", "Eb"} {
		f.Add(s)
	}
	home := mustScale(f, "Gb minor pentatonic")
	f.Fuzz(func(t *testing.T, s string) {
		r, err := pitch.Relative(home, s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		scale := r.Scale
		if again, err := pitch.Relative(home, r.Given); err != nil || again.Given != r.Given || again.Scale.Name() != scale.Name() {
			t.Errorf("%q is given as %q, which reads as %+v, %v", s, r.Given, again, err)
		}
		if again, err := pitch.ParseScale(scale.Name()); err != nil || spell(again.Notes) != spell(scale.Notes) {
			t.Errorf("%q is %s, which reads as %s, %v", s, scale.Name(), again.Name(), err)
		}
	})
}

func FuzzParseChord(f *testing.F) {
	for _, s := range []string{"Gm7", "G-7", "Gø", "G7(b9,#11)", "GΔ#11/B", "G13sus", "Gm(maj7)", "G6/9", "Galt", "G7M", "Gsus24", "G+", "Gm7b5/F"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := pitch.ParseChord(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		checkChordReadsBack(t, c)
		if keys := c.Voicing(); len(keys) == 0 || len(keys) > 6 || keys[0] < 36 || keys[len(keys)-1] > 84 {
			t.Errorf("%q is voiced %v", s, keys)
		}
	})
}

func FuzzParseDegree(f *testing.F) {
	for _, s := range []string{"third", "b7", "#11", "flat ninth", "the root", "♭13", "diminished fifth"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := pitch.ParseDegree(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		if again, err := pitch.ParseDegree(d.Words()); err != nil || again != d {
			t.Errorf("%q is %s, %q, which reads as %s, %v", s, d, d.Words(), again, err)
		}
	})
}

func FuzzParseNaming(f *testing.F) {
	for _, s := range []string{"english", "German", " solfege ", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		naming, err := pitch.ParseNaming(s)
		if err != nil {
			checkRefusal(t, s, err)
			return
		}
		for _, naming := range []pitch.Naming{naming, pitch.German, pitch.Solfege} {
			if _, err := naming.Parse(s); err != nil {
				checkRefusal(t, s, err)
			}
		}
	})
}
