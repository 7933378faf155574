package sound

import (
	"testing"

	"heddle/exercise"
	"heddle/internal/need"
)

// build builds an exercise that must be right.
func build(t testing.TB, s exercise.Spec) *exercise.Exercise {
	t.Helper()
	ex, err := exercise.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// gMinorVamp is the workshop's line on its slow funk vamp: threes from G minor
// pentatonic and the same scale a semitone up, falling, in eighths.
func gMinorVamp(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"},
		Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 4, Land: "third",
	})
}

// bluesInA is the workshop's other line: swung twos over the first four bars
// of a blues.
func bluesInA(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Changes: "A7 | D7 | A7 | A7", Home: "A minor pentatonic", Superimpose: []string{"tritone"},
		Groups: []int{2, 2}, Fret: 5, Tempo: 120, Direction: "down-up", Feel: "swing 2:1",
	})
}

// slowBlues is the same on a bass, slow and in legato.
func slowBlues(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Chord: "Am7", Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Tempo: 60,
		Direction: "down-up", Picking: "legato", Land: "root",
	})
}

// A demo is an exercise with a name.
type demo struct {
	name string
	ex   *exercise.Exercise
}

// demos returns the demo exercises; in the everyday run one of them, the same
// code being run by all.
func demos(t testing.TB) []demo {
	all := []demo{{"G minor vamp", gMinorVamp(t)}, {"blues in A", bluesInA(t)}, {"slow blues", slowBlues(t)}}
	if !need.All() || testing.Short() {
		return all[1:2]
	}
	return all
}
