package neck

import (
	"strings"
	"testing"
)

func TestTuningsAreReadFromTheLastStringToTheFirst(t *testing.T) {
	for _, c := range []struct{ typed, first, written string }{
		{"E2 A2 D3 G3 B3 E4", "E4", "E2 A2 D3 G3 B3 E4"},
		{"e2, a2, d3, g3, b3, e4", "E4", "E2 A2 D3 G3 B3 E4"},
		{"  Eb2 Ab2  Db3 Gb3 Bb3 Eb4 ", "Eb4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"},
		{"D2 A2 D3 F#3 A3 D4", "D4", "D2 A2 D3 F#3 A3 D4"},
		{"G4 C4 E4 A4", "A4", "G4 C4 E4 A4"},
		{"A4", "A4", "A4"},
	} {
		open, err := ParseTuning(c.typed)
		if err != nil {
			t.Errorf("%q: %v", c.typed, err)
			continue
		}
		if open[0].String() != c.first || FormatTuning(open) != c.written {
			t.Errorf("%q: string 1 is %v, written %q; want %s, %q", c.typed, open[0], FormatTuning(open), c.first, c.written)
		}
	}
}

func TestASlipInATuningIsNamed(t *testing.T) {
	for typed, want := range map[string]string{
		"E2 A2 D3 X3 B3 E4":       `tuning "X3": want a note name and an octave, such as E2 or Bb3`,
		"E2 A D3 G3 B3 E4":        `tuning "A": want a note name and an octave, such as E2 or Bb3; did you mean "A2"?`,
		"E2 A2 D3 G3 H3 E4":       `tuning "H3": want a note name and an octave, such as E2 or Bb3; did you mean "B3"?`,
		"E2 A2 D3 G3 B3 E44":      `tuning "E44": want a note name and an octave, such as E2 or Bb3`,
		"E2 A2 D3 G3 B3 E9":       `tuning "E9": want open strings from C0 to E6`,
		"":                        `tuning "": want 1 to 12 open strings, the lowest first, such as E2 A2 D3 G3 B3 E4`,
		strings.Repeat("E2 ", 13): `tuning "` + strings.Repeat("E2 ", 13) + `": want 1 to 12 open strings, the lowest first, such as E2 A2 D3 G3 B3 E4`,
	} {
		if _, err := ParseTuning(typed); err == nil || err.Error() != want {
			t.Errorf("%q:\ngot  %v\nwant %s", typed, err, want)
		}
	}
}

func FuzzParseTuning(f *testing.F) {
	for _, m := range models {
		f.Add(m.tuning)
	}
	for _, s := range []string{"", "E2 A D3", "h2", "C-1", "B#9", "e2,a2\td3", "E2\nA2", "♭", "E2 A2 D3 G3 B3 E4 E4 E4 E4 E4 E4 E4 E4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		open, err := ParseTuning(typed)
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("more than one line: %v", err)
			}
			return
		}
		in := Guitar()
		in.Open = open
		if err := in.Check(); err != nil {
			t.Fatalf("%q is read but refused: %v", typed, err)
		}
		again, err := ParseTuning(FormatTuning(open))
		if err != nil || FormatTuning(again) != FormatTuning(open) {
			t.Fatalf("%q is written %q and read as %v, %v", typed, FormatTuning(open), again, err)
		}
	})
}
