package notefile

import (
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/sheet"
)

func TestGroupsAreLabelledWithTheirScales(t *testing.T) {
	landed := workedExample()
	landed.Bars, landed.Land = 2, "third"
	sameRoot := exercise.Spec{Home: "A minor pentatonic", Superimpose: []string{"A dorian"}, Groups: []int{2, 2}, Fret: 5, Bars: 1}
	changes := exercise.Spec{Home: "G minor pentatonic", Changes: "Gm7 | C7", Bars: 2, Groups: []int{4}}
	german := workedExample()
	german.Names, german.Bars = "german", 1
	adopted := &exercise.Exercise{}
	for i := range 2 {
		adopted.Notes = append(adopted.Notes, exercise.Note{Note: line.Note{Start: line.Beat(i) * line.Quarter, Duration: line.Quarter, Scale: line.Chromatic}})
	}
	for name, c := range map[string]struct {
		ex   *exercise.Exercise
		want string
	}{
		"roots, the title tells the rest": {built(t, landed), "G, A♭, G, A♭, G, landing"},
		"one root, two scales":            {built(t, sameRoot), "A minor pentatonic, A dorian, A minor pentatonic, A dorian"},
		"home alone":                      {built(t, changes), "G, G, G, G"},
		"German":                          {built(t, german), "G, As"},
		"a passing note":                  {adopted, "chromatic"},
	} {
		var words []string
		runs := sheet.Runs(c.ex.Notes)
		words = append(words, sheet.Labels(c.ex, runs)...)
		if got := strings.Join(words, ", "); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}
