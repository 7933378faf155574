package notefile

import (
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
)

func TestGroupsBearTheirScalesNames(t *testing.T) {
	landed := workedExample()
	landed.Bars, landed.Land = 2, "third"
	sameRoot := exercise.Spec{Home: "A minor pentatonic", Superimpose: []string{"A dorian"}, Groups: []int{2, 2}, Fret: 5, Bars: 1}
	changes := exercise.Spec{Home: "G minor pentatonic", Changes: "Gm7 | C7", Bars: 2, Groups: []int{4}}
	german := workedExample()
	german.Names, german.Bars = "german", 1
	adopted := exerciseOf(Import{Meter: line.CommonTime, Notes: make([]Note, 2)})
	for i := range adopted.Notes {
		adopted.Notes[i].Note = line.Note{Start: line.Beat(i) * quarter, Duration: quarter, Scale: line.Chromatic, Role: line.PatternRole}
	}
	for name, c := range map[string]struct {
		ex   *exercise.Exercise
		want string
	}{
		"roots, the title tells the rest": {built(t, landed), "G solid, A♭ dashed, G solid, A♭ dashed, G solid, landing solid"},
		"one root, two scales":            {built(t, sameRoot), "A minor pentatonic solid, A dorian dashed, A minor pentatonic solid, A dorian dashed"},
		"home alone":                      {built(t, changes), "G solid, G solid, G solid, G solid"},
		"German":                          {built(t, german), "G solid, As dashed"},
		"a passing note":                  {adopted, "chromatic solid"},
	} {
		var words []string
		runs := runsOf(c.ex.Notes)
		for i, label := range labels(c.ex, runs) {
			words = append(words, label+" "+bracketLine(c.ex, runs[i]))
		}
		if got := strings.Join(words, ", "); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}
