package performance

import (
	"errors"
	"math"
	"math/rand/v2"

	"heddle/exercise"
)

// What exercises are drawn from.
var (
	drawnRoots  = []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	drawnScales = []string{"minor pentatonic", "major pentatonic", "blues", "dorian", "melodic minor"}
	drawnShifts = []string{"semitone up", "semitone down", "tritone", "minor third up", "tone up", "fourth up", "major third up"}
)

// longestExercise is where long exercises are cut, so that fast and slow ones
// count the same.
const longestExercise = 60

// DrawExercise draws an exercise in any key and position. Specs that no
// hand can play are drawn again.
func DrawExercise(r *rand.Rand, p Player) (*exercise.Exercise, error) {
	for range 100 {
		size := 2 + r.IntN(3)
		ex, err := exercise.Build(exercise.Spec{
			Home:        drawnRoots[r.IntN(len(drawnRoots))] + " " + drawnScales[r.IntN(len(drawnScales))],
			Superimpose: []string{drawnShifts[r.IntN(len(drawnShifts))]},
			Groups:      []int{size, size},
			Direction:   []string{"down", "up", "down-up", "up-down"}[r.IntN(4)],
			Follow:      []string{"first", "last"}[r.IntN(2)],
			Fret:        r.IntN(14),
			Value:       string(p.value),
			Tempo:       math.Round(p.Tempo * (0.9 + 0.2*r.Float64())),
		})
		if err == nil && len(ex.Notes) >= 20 {
			ex.Notes = ex.Notes[:min(len(ex.Notes), longestExercise)]
			return ex, nil
		}
	}
	return nil, errors.New("no exercise could be drawn")
}
