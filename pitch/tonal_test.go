package pitch_test

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"heddle/pitch"
)

// A tonalAnswer is what the library tonal says of one scale type; see
// testdata/tonal.mjs for the versions that answered.
type tonalAnswer struct {
	Name        string
	Notes       string // the scale on C that tonal was asked about
	Chroma      string // its pitch classes, C first
	Normalized  string // the rotation with the smallest number
	Tonal       string // tonal's name, "" where it has none
	ScaleChroma string
	Intervals   string            // "1P 3m 4P 5P 7m"
	Spelled     map[string]string // notes by root
}

// tonalAnswers reads the stored answers by name.
func tonalAnswers(t *testing.T) map[string]tonalAnswer {
	t.Helper()
	text, err := os.ReadFile("testdata/tonal.json")
	if err != nil {
		t.Fatal(err)
	}
	var stored struct{ Answers []tonalAnswer }
	if err := json.Unmarshal(text, &stored); err != nil {
		t.Fatal(err)
	}
	byName := map[string]tonalAnswer{}
	for _, a := range stored.Answers {
		byName[a.Name] = a
	}
	return byName
}

// otherLetters lists the scales that tonal spells with other letters than the
// trade's degrees do here; their sound is compared all the same.
var otherLetters = map[string]string{
	"whole tone": "tonal writes the last note as #6, here b7",
	"altered":    "tonal writes 1 b2 #2 3 #4 b6 b7, here b5 #5",
	"chromatic":  "tonal writes b5, here #4",

	"altered pentatonic": "tonal writes 1 b3 b4 b5 b7, here the letters of altered",
}

func TestEveryScaleTypeIsWhatTonalSaysItIs(t *testing.T) {
	answers := tonalAnswers(t)
	types := pitch.Types()
	if len(types) < 100 || len(answers) != len(types) {
		t.Fatalf("%d types, %d answers: run testdata/tonal.mjs for every type", len(types), len(answers))
	}
	named := 0
	for _, ty := range types {
		a, ok := answers[ty.Name]
		if !ok {
			t.Errorf("%s: tonal was not asked", ty.Name)
			continue
		}
		s := pitch.NewScale(pitch.Name{}, ty)
		if chroma(s.Notes) != a.Chroma || normalized(a.Chroma) != a.Normalized {
			t.Errorf("%s is %s, %s; tonal was asked about %s and says %s, normalized %s", ty.Name, spell(s.Notes), chroma(s.Notes), a.Notes, a.Chroma, a.Normalized)
		}
		if a.Tonal == "" {
			continue
		}
		named++
		if chroma(s.Notes) != a.ScaleChroma {
			t.Errorf("%s is %s; tonal's %s is %s", ty.Name, chroma(s.Notes), a.Tonal, a.ScaleChroma)
		}
		compareSpelling(t, ty, a)
	}
	if named < 60 {
		t.Errorf("only %d types were compared with a scale of tonal's", named)
	}
}

// compareSpelling compares letters degree by degree and root by root. tonal keeps
// the letters of the degrees on every root; here only seven-note scales and plain
// pentatonics do, where that takes double accidentals.
func compareSpelling(t *testing.T, ty pitch.Type, a tonalAnswer) {
	t.Helper()
	same := degreesOfIntervals(a.Intervals) == degreesOf(ty)
	if _, known := otherLetters[ty.Name]; same == known {
		t.Errorf("%s: degrees %s, tonal has %s; listed as spelled otherwise: %v", ty.Name, degreesOf(ty), degreesOfIntervals(a.Intervals), known)
		return
	}
	if !same {
		return
	}
	for root, notes := range a.Spelled {
		s := pitch.NewScale(mustName(t, root), ty)
		for i, word := range strings.Fields(notes) {
			n := mustName(t, word)
			replaced := !keepsLetters(ty) && n.Accidental*n.Accidental > 1
			if s.Notes[i].Class() != n.Class() || replaced == (s.Notes[i] == n) {
				t.Errorf("%s is %s, tonal says %s", s.Name(), spell(s.Notes), notes)
			}
		}
	}
}

func degreesOf(ty pitch.Type) string {
	var words []string
	for _, d := range ty.Degrees {
		words = append(words, d.String())
	}
	return strings.Join(words, " ")
}

// degreesOfIntervals turns "1P 3m 5d" into "1 b3 b5".
func degreesOfIntervals(intervals string) string {
	words := strings.Fields(intervals)
	for i, word := range words {
		number := word[:1]
		perfect := strings.Contains("145", number)
		sign := map[byte]string{'P': "", 'M': "", 'm': "b", 'A': "#", 'd': "bb"}[word[1]]
		if perfect && word[1] == 'd' {
			sign = "b"
		}
		words[i] = sign + number
	}
	return strings.Join(words, " ")
}

// chroma writes the names' pitch classes as twelve digits, C first.
func chroma(names []pitch.Name) string {
	digits := []byte("000000000000")
	for _, n := range names {
		digits[n.Class()] = '1'
	}
	return string(digits)
}

// normalized returns the smallest rotation that begins with a note.
func normalized(chroma string) string {
	var rotations []string
	for i := range chroma {
		if chroma[i] == '1' {
			rotations = append(rotations, chroma[i:]+chroma[:i])
		}
	}
	return slices.Min(rotations)
}
