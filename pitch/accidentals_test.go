package pitch_test

import (
	"strings"
	"testing"

	"heddle/pitch"
)

// Common practice (Gould 2011, "Accidentals"). ~ is a tied note; the answer
// has + for an accidental (or a natural), (+) for a courtesy, - for none.
func TestAccidentalsHoldToTheBarLine(t *testing.T) {
	for _, row := range []struct{ notes, want string }{
		{"C4 C#4 C#4 C4", "- + - +"},
		{"F#4 G4 F#4 G4 | F#4 F4 F4 F4", "+ - - - | + + - -"},
		{"Bb3 C4 D4 E4 | B3 C4 D4 B3", "+ - - - | (+) - - -"},
		{"Bb3 | C4 | B3", "+ | - | -"},
		{"F#4 F5 F5 F4", "+ (+) - +"},
		{"Bbb3 Bb3 B3 Bbb3", "+ + + +"},
		{"B3 Bb4 B3", "- + -"},
		{"Bb3 | ~Bb3 C4 Bb3 Bb3", "+ | ~ - + -"},
		{"Bb3 | ~Bb3 B3", "+ | ~ (+)"},
		{"Cb4 B3", "+ -"},
	} {
		var a pitch.Accidentals
		var got []string
		for _, word := range strings.Fields(row.notes) {
			if word == "|" {
				a.BarLine()
				got = append(got, "|")
				continue
			}
			p, err := pitch.Parse(strings.TrimPrefix(word, "~"))
			if err != nil {
				t.Fatal(err)
			}
			if strings.HasPrefix(word, "~") {
				a.Tied(p)
				got = append(got, "~")
				continue
			}
			switch printed, courtesy := a.Next(p); {
			case courtesy:
				got = append(got, "(+)")
			case printed:
				got = append(got, "+")
			default:
				got = append(got, "-")
			}
		}
		if got := strings.Join(got, " "); got != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.notes, got, row.want)
		}
	}
}
