package surface_test

import (
	"reflect"
	"testing"

	"heddle/score/surface"
)

// As many scales as a spec may superimpose differ in figure and in line.
func TestEverySuperimposedScaleHasItsOwnMarks(t *testing.T) {
	const scales = 6
	for a := range scales {
		for b := range a {
			if reflect.DeepEqual(surface.ScaleDash(a, 1), surface.ScaleDash(b, 1)) {
				t.Errorf("scales %d and %d have one line", a, b)
			}
			if reflect.DeepEqual(surface.ScaleFigure(a, surface.Point{}, 1, surface.None, surface.Ink, 0.1), surface.ScaleFigure(b, surface.Point{}, 1, surface.None, surface.Ink, 0.1)) {
				t.Errorf("scales %d and %d have one figure", a, b)
			}
		}
	}
}
