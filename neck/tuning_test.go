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
		{"D A D G A D", "D4", "D2 A2 D3 G3 A3 D4"},
		{"eadgbe", "E4", "E2 A2 D3 G3 B3 E4"},
		{"DADF#AD", "D4", "D2 A2 D3 F#3 A3 D4"},
		{"EbAbDbGbBbEb", "Eb4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"},
		{"C-G-C-G-C-E", "E4", "C2 G2 C3 G3 C4 E4"},
		{"E2 A D3 G3 B3 E4", "E4", "E2 A2 D3 G3 B3 E4"},
		{"B E A D G B E", "E4", "B1 E2 A2 D3 G3 B3 E4"},
	} {
		open, err := ParseTuning(c.typed, Guitar())
		if err != nil {
			t.Errorf("%q: %v", c.typed, err)
			continue
		}
		if open[0].String() != c.first || FormatTuning(open) != c.written {
			t.Errorf("%q: string 1 is %v, written %q; want %s, %q", c.typed, open[0], FormatTuning(open), c.first, c.written)
		}
	}
}

// Common practice; how each tuning is reached from standard is in any handbook.
func TestTuningsAreKnownByTheirUsualNames(t *testing.T) {
	for _, c := range []struct{ instrument, typed, written string }{
		{"guitar", "DADGAD", "D2 A2 D3 G3 A3 D4"},
		{"guitar", "dadgad", "D2 A2 D3 G3 A3 D4"},
		{"guitar", "drop D", "D2 A2 D3 G3 B3 E4"},
		{"guitar", "Drop-D tuning", "D2 A2 D3 G3 B3 E4"},
		{"guitar", "dropD", "D2 A2 D3 G3 B3 E4"},
		{"guitar", "open g", "D2 G2 D3 G3 B3 D4"},
		{"guitar", "standard", "E2 A2 D3 G3 B3 E4"},
		{"guitar", "half step down", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"},
		{"guitar", "a half-step down", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"},
		{"guitar", "E♭", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"},
		{"guitar", "D standard", "D2 G2 C3 F3 A3 D4"},
		{"bass", "drop D", "D1 A1 D2 G2"},
		{"bass", "B E A D", "B0 E1 A1 D2"},
		{"bass", "whole step down", "D1 G1 C2 F2"},
		{"ukulele", "low G", "G3 C4 E4 A4"},
		{"ukulele", "GCEA", "G4 C4 E4 A4"},
		{"mandolin", "AEAE", "A3 E4 A4 E5"},
		{"seven-string guitar", "drop A", "A1 E2 A2 D3 G3 B3 E4"},
	} {
		in, err := Named(c.instrument)
		if err != nil {
			t.Fatal(err)
		}
		open, err := ParseTuning(c.typed, in)
		if err != nil || FormatTuning(open) != c.written {
			t.Errorf("%s in %s is %s, %v; want %s", c.instrument, c.typed, FormatTuning(open), err, c.written)
		}
	}
}

// Every tuning in the table is one of its instrument's, is read by each of its names,
// and by its letters alone; no name means two tunings of one instrument.
func TestEveryNamedTuningIsItsOwn(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range namedTunings {
		in, err := Named(row.instrument)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range row.names {
			if key := row.instrument + " " + tuningKey(name); seen[key] {
				t.Errorf("%s means two tunings", key)
			} else {
				seen[key] = true
			}
			open, err := ParseTuning(name, in)
			if err != nil || FormatTuning(open) != row.open || len(open) != in.Strings() {
				t.Errorf("%s in %s is %s, %v", row.instrument, name, FormatTuning(open), err)
			}
		}
	}
	if len(seen) < 40 {
		t.Errorf("only %d names", len(seen))
	}
}

func TestASlipInATuningIsNamed(t *testing.T) {
	for typed, want := range map[string]string{
		"E2 A2 D3 X3 B3 E4":       `tuning "X3": want a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D`,
		"dropp D":                 `tuning "dropp": want a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D; did you mean "drop D"?`,
		"opn g":                   `tuning "opn": want a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D; did you mean "open G"?`,
		"E2 A2 D3 G3 H3 E4":       `tuning "H3": want a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D; did you mean "B3"?`,
		"E2 A2 D3 G3 B3 E44":      `tuning "E44": want a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D`,
		"E2 A2 D3 G3 B3 E9":       `tuning "E9": want open strings from C0 to E6`,
		"":                        `tuning "": want 1 to 12 open strings, the lowest first, such as E2 A2 D3 G3 B3 E4 or D A D G A D, or a name such as drop D`,
		strings.Repeat("E2 ", 13): `tuning "` + strings.Repeat("E2 ", 13) + `": want 1 to 12 open strings, the lowest first, such as E2 A2 D3 G3 B3 E4 or D A D G A D, or a name such as drop D`,
	} {
		if _, err := ParseTuning(typed, Guitar()); err == nil || err.Error() != want {
			t.Errorf("%q:\ngot  %v\nwant %s", typed, err, want)
		}
	}
}

func FuzzParseTuning(f *testing.F) {
	for _, m := range models {
		f.Add(m.tuning)
	}
	for _, s := range []string{"", "E2 A D3", "h2", "C-1", "B#9", "e2,a2\td3", "E2\nA2", "♭", "drop D", "EADGBE", "Eb", "bbb", "E2 A2 D3 G3 B3 E4 E4 E4 E4 E4 E4 E4 E4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		open, err := ParseTuning(typed, Guitar())
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
		again, err := ParseTuning(FormatTuning(open), Guitar())
		if err != nil || FormatTuning(again) != FormatTuning(open) {
			t.Fatalf("%q is written %q and read as %v, %v", typed, FormatTuning(open), again, err)
		}
	})
}
