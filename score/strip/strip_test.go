package strip

import (
	"testing"

	"heddle/exercise"
)

// Notes of the strip are closer together where that saves a row, but never closer
// than a degree in its box needs.
func TestStripSavesARow(t *testing.T) {
	for _, c := range []struct {
		width         float64
		notes, perRow int
		tight         bool
	}{
		{400, 65, 65, true},
		{400, 59, 59, false},
		{275, 65, 39, false},
		{275, 92, 46, true},
		{Width(65), 65, 65, false},
		{10, 3, 1, false},
	} {
		cell, perRow := cells(c.width, c.notes)
		if perRow != c.perRow || (cell < usualCell) != c.tight || cell < tightCell || cell > usualCell {
			t.Errorf("%v mm, %d notes: %d in a row, %.2f mm apart, want %d, tight %v", c.width, c.notes, perRow, cell, c.perRow, c.tight)
		}
	}
}

func TestAnEmptyExerciseDoesNotPanic(t *testing.T) {
	Draw(&exercise.Exercise{}, Options{Width: -4})
}
