package surface

import "testing"

func TestEveryScaleHasItsOwnColour(t *testing.T) {
	for a := range superimposedPaints + 1 {
		for b := range a {
			for _, theme := range []Theme{Light, Dark} {
				if theme.rgb(Scale(a)) == theme.rgb(Scale(b)) {
					t.Errorf("scales %d and %d have one colour", a, b)
				}
			}
		}
	}
}
