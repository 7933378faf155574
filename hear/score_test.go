package hear

import (
	"math"
	"testing"
)

// The published rule for onsets and pitches of transcribed notes (Raffel et
// al., mir_eval, ISMIR 2014): within 50 ms and 50 cents, both inclusive,
// each note of either side used at most once, as many pairs as possible.
const (
	onsetWithinS    = 0.050
	pitchWithinKeys = 0.50
)

// matchNotes returns for each true note the heard note it is paired with, or
// −1, by augmenting paths.
func matchNotes(truth []played, cents float64, heard []Heard) []int {
	close := make([][]int, len(truth))
	for i, n := range truth {
		for j, h := range heard {
			if math.Abs(h.OnsetS-n.onS) <= onsetWithinS && math.Abs(h.MIDI-float64(n.key)-cents/100) <= pitchWithinKeys {
				close[i] = append(close[i], j)
			}
		}
	}
	takenBy := make([]int, len(heard))
	for j := range takenBy {
		takenBy[j] = -1
	}
	var place func(i int, seen map[int]bool) bool
	place = func(i int, seen map[int]bool) bool {
		for _, j := range close[i] {
			if seen[j] {
				continue
			}
			seen[j] = true
			if takenBy[j] < 0 || place(takenBy[j], seen) {
				takenBy[j] = i
				return true
			}
		}
		return false
	}
	for i := range truth {
		place(i, map[int]bool{})
	}
	pairs := make([]int, len(truth))
	for i := range pairs {
		pairs[i] = -1
	}
	for j, i := range takenBy {
		if i >= 0 {
			pairs[i] = j
		}
	}
	return pairs
}

// fMeasure is the harmonic mean of the shares of true and of heard notes that
// are paired.
func fMeasure(paired, truth, heard int) float64 {
	if truth+heard == 0 {
		return 1
	}
	return 2 * float64(paired) / float64(truth+heard)
}

func TestScoreHoldsItsTerms(t *testing.T) {
	truth := []played{{onS: 1, key: 60}, {onS: 1.2, key: 62}, {onS: 1.4, key: 60}}
	itself := []Heard{{OnsetS: 1, MIDI: 60}, {OnsetS: 1.2, MIDI: 62}, {OnsetS: 1.4, MIDI: 60}}
	score := func(heard []Heard) float64 {
		paired := 0
		for _, j := range matchNotes(truth, 0, heard) {
			if j >= 0 {
				paired++
			}
		}
		return fMeasure(paired, len(truth), len(heard))
	}
	for _, c := range []struct {
		name  string
		heard []Heard
		want  float64
	}{
		{"a reference against itself", itself, 1},
		{"nothing", nil, 0},
		{"50 cents off still counts", []Heard{{OnsetS: 1, MIDI: 60.5}, itself[1], itself[2]}, 1},
		{"51 cents off doesn't", []Heard{{OnsetS: 1, MIDI: 60.51}, itself[1], itself[2]}, 2.0 / 3},
		{"49 ms off still counts", []Heard{{OnsetS: 1.049, MIDI: 60}, itself[1], itself[2]}, 1},
		{"51 ms off doesn't", []Heard{{OnsetS: 1.051, MIDI: 60}, itself[1], itself[2]}, 2.0 / 3},
		{"one heard note counts once", []Heard{itself[0], itself[0], itself[1], itself[2]}, 6.0 / 7},
		{"an octave is another note", []Heard{{OnsetS: 1, MIDI: 72}, itself[1], itself[2]}, 2.0 / 3},
	} {
		if got := score(c.heard); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.4f, want %.4f", c.name, got, c.want)
		}
	}
}
