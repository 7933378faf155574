package pitch

import (
	"math"
	"testing"
)

// Expected values: the formula in Sethares 1993 written out in another
// language, without this package's shortcuts; E4–F4 is 1 by definition.
func TestRoughnessFollowsTheFormula(t *testing.T) {
	gm7 := []int{55, 58, 62, 65}
	for _, row := range []struct {
		voicing []int
		key     int
		want    float64
		what    string
	}{
		{[]int{64}, 64, 0.011470, "unison"},
		{[]int{64}, 65, 1, "semitone"},
		{[]int{64}, 66, 0.639415, "whole tone"},
		{[]int{64}, 67, 0.478559, "minor third"},
		{[]int{64}, 68, 0.435292, "major third"},
		{[]int{64}, 69, 0.273156, "fourth"},
		{[]int{64}, 70, 0.458163, "tritone"},
		{[]int{64}, 71, 0.137016, "fifth"},
		{[]int{64}, 76, 0.007937, "octave"},
		{gm7, 77, 0.468436, "F5 over Gm7"},
		{gm7, 76, 1.443281, "E5 over Gm7"},
		{gm7, 71, 1.555756, "B4 over Gm7"},
		{gm7, 66, 2.635344, "F♯4 over Gm7"},
		{[]int{40}, 41, 1.356774, "a semitone on the lowest string"},
	} {
		if got := Hear(row.voicing).Roughness(row.key); math.Abs(got-row.want) > 0.01 {
			t.Errorf("%s: roughness %.6f, want %.6f", row.what, got, row.want)
		}
	}
}

// Source: Plomp and Levelt 1965: two pure tones are roughest about a quarter
// of a critical bandwidth apart, and smooth in unison and beyond one.
func TestPureTonesAreRoughestAtAQuarterOfTheCriticalBand(t *testing.T) {
	const base = 500.0
	peak, at := 0.0, 0.0
	for apart := 0.0; apart < 200; apart += 0.5 {
		if r := pairRoughness(base, base+apart); r > peak {
			peak, at = r, apart
		}
	}
	// The scaled distance where the curve peaks is ln(b2/b1)/(b2−b1).
	want := math.Log(fastDecay/slowDecay) / (fastDecay - slowDecay) * (widthRise*base + widthBase) / mostRough
	if math.Abs(at-want) > 0.5 {
		t.Errorf("roughest %.1f Hz apart, want %.1f", at, want)
	}
	if r := pairRoughness(base, base); r != 0 {
		t.Errorf("a unison has roughness %v", r)
	}
}

func TestTheQuickFormulaIsTheFormula(t *testing.T) {
	for f1 := 80.0; f1 < 4000; f1 *= 1.3 {
		for f2 := f1; f2 < 2*f1; f2 *= 1.01 {
			x := mostRough / (widthRise*f1 + widthBase) * (f2 - f1)
			want := math.Exp(-slowDecay*x) - math.Exp(-fastDecay*x)
			if got := pairRoughness(f1, f2); math.Abs(got-want) > 2e-4 {
				t.Fatalf("%.1f and %.1f Hz: %v, want %v", f1, f2, got, want)
			}
		}
	}
}

func TestNothingIsRoughAgainstSilence(t *testing.T) {
	if r := Hear(nil).Roughness(60); r != 0 {
		t.Errorf("roughness %v against no voicing", r)
	}
}

func BenchmarkRoughness(b *testing.B) {
	gm7 := Hear([]int{55, 58, 62, 65})
	for b.Loop() {
		gm7.Roughness(77)
	}
}
