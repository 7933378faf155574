package accuracy

import (
	"math"
	"testing"
)

func TestScoreHoldsItsTerms(t *testing.T) {
	truth := []Note{{OnsetS: 1, MIDI: 60}, {OnsetS: 1.2, MIDI: 62}, {OnsetS: 1.4, MIDI: 60}}
	itself := truth
	score := func(heard []Note) float64 {
		return F(Paired(Match(truth, heard)), len(truth), len(heard))
	}
	for _, c := range []struct {
		name  string
		heard []Note
		want  float64
	}{
		{"a reference against itself", itself, 1},
		{"nothing", nil, 0},
		{"50 cents off still counts", []Note{{OnsetS: 1, MIDI: 60.5}, itself[1], itself[2]}, 1},
		{"51 cents off doesn't", []Note{{OnsetS: 1, MIDI: 60.51}, itself[1], itself[2]}, 2.0 / 3},
		{"49 ms off still counts", []Note{{OnsetS: 1.049, MIDI: 60}, itself[1], itself[2]}, 1},
		{"51 ms off doesn't", []Note{{OnsetS: 1.051, MIDI: 60}, itself[1], itself[2]}, 2.0 / 3},
		{"one heard note counts once", []Note{itself[0], itself[0], itself[1], itself[2]}, 6.0 / 7},
		{"an octave is another note", []Note{{OnsetS: 1, MIDI: 72}, itself[1], itself[2]}, 2.0 / 3},
	} {
		if got := score(c.heard); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.4f, want %.4f", c.name, got, c.want)
		}
	}
}
