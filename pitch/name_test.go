package pitch_test

import (
	"math"
	"testing"

	"heddle/pitch"
)

func TestNamesAreWrittenAndSpokenInThreeWays(t *testing.T) {
	// Common practice; solfège in its French form.
	for _, row := range []struct{ name, english, german, solfege, germanSpoken, englishSpoken, frenchSpoken string }{
		{"C", "C", "C", "Do", "Ce", "C", "do"},
		{"B", "B", "H", "Si", "Ha", "B", "si"},
		{"Bb", "B♭", "B", "Si♭", "Be", "B flat", "si bémol"},
		{"Eb", "E♭", "Es", "Mi♭", "Es", "E flat", "mi bémol"},
		{"Ab", "A♭", "As", "La♭", "As", "A flat", "la bémol"},
		{"F#", "F♯", "Fis", "Fa♯", "Fis", "F sharp", "fa dièse"},
		{"Cb", "C♭", "Ces", "Do♭", "Ces", "C flat", "do bémol"},
		{"Bbb", "B𝄫", "Heses", "Si𝄫", "Heses", "B double flat", "si double bémol"},
		{"F##", "F𝄪", "Fisis", "Fa𝄪", "Fisis", "F double sharp", "fa double dièse"},
		{"B#", "B♯", "His", "Si♯", "His", "B sharp", "si dièse"},
		{"Abb", "A𝄫", "Asas", "La𝄫", "Asas", "A double flat", "la double bémol"},
		{"Ebb", "E𝄫", "Eses", "Mi𝄫", "Eses", "E double flat", "mi double bémol"},
		{"D", "D", "D", "Ré", "De", "D", "ré"},
	} {
		n := mustName(t, row.name)
		for _, got := range [][2]string{
			{pitch.English.Name(n), row.english}, {pitch.German.Name(n), row.german}, {pitch.Solfege.Name(n), row.solfege},
			{pitch.German.Spoken(n), row.germanSpoken}, {pitch.English.Spoken(n), row.englishSpoken}, {pitch.Solfege.Spoken(n), row.frenchSpoken},
		} {
			if got[0] != got[1] {
				t.Errorf("%s: %q, want %q", row.name, got[0], got[1])
			}
		}
	}
}

func TestPlainNamesAreASCII(t *testing.T) {
	for _, naming := range []pitch.Naming{pitch.English, pitch.German, pitch.Solfege} {
		for letter := pitch.C; letter <= pitch.B; letter++ {
			for accidental := -3; accidental <= 3; accidental++ {
				n := pitch.Name{Letter: letter, Accidental: accidental}
				for _, r := range naming.Plain(n) {
					if r > 127 {
						t.Errorf("%v writes %s as %q", naming, n, naming.Plain(n))
					}
				}
				for _, written := range []string{naming.Plain(n), naming.Name(n)} {
					if read, err := naming.Parse(written); err != nil || read != n {
						t.Errorf("%v reads %q as %s (%v), want %s", naming, written, read, err, n)
					}
				}
			}
		}
	}
}

func TestNamingsAreChosenByTheirWord(t *testing.T) {
	for _, naming := range []pitch.Naming{pitch.English, pitch.German, pitch.Solfege} {
		if read, err := pitch.ParseNaming(naming.String()); err != nil || read != naming {
			t.Errorf("%v reads as %v, %v", naming, read, err)
		}
	}
	for typed, nearest := range map[string]string{"germn": "german", "": "", "latin": ""} {
		_, err := pitch.ParseNaming(typed)
		checkInputError(t, err, typed, nearest)
	}
	_, err := pitch.German.Parse("fsi")
	checkInputError(t, err, "fsi", "Fis")
}

func TestNamesAndPitchesThatCantBe(t *testing.T) {
	for _, typed := range []string{"", "H", "C####", "C#b", "Cis", "C 4", "é"} {
		_, err := pitch.ParseName(typed)
		checkInputError(t, err, typed, "")
	}
	for _, typed := range []string{"", "C", "C10", "C-2", "F5.0", "5", "C99999999999999999999"} {
		_, err := pitch.Parse(typed)
		checkInputError(t, err, typed, "")
	}
}

// Source: ISO 16 (A4 is 440 Hz); scientific pitch notation (C4 is MIDI 60, the
// guitar's open strings are E2 to E4).
func TestPitchesSoundWhereTheyShould(t *testing.T) {
	for _, row := range []struct {
		pitch string
		midi  int
		hz    float64
	}{
		{"A4", 69, 440}, {"C4", 60, 261.626}, {"E4", 64, 329.628}, {"E2", 40, 82.407}, {"Cb5", 71, 493.883}, {"B4", 71, 493.883}, {"B#3", 60, 261.626}, {"C-1", 0, 8.176},
	} {
		p, err := pitch.Parse(row.pitch)
		if err != nil {
			t.Fatal(err)
		}
		if p.MIDI() != row.midi || math.Abs(pitch.Frequency(float64(p.MIDI()))-row.hz) > 0.001 {
			t.Errorf("%s is MIDI %d, %.3f Hz; want %d, %.3f", row.pitch, p.MIDI(), pitch.Frequency(float64(p.MIDI())), row.midi, row.hz)
		}
	}
}
