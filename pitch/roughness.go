package pitch

import "math"

// The model of Plomp and Levelt (Tonal consonance and critical bandwidth,
// JASA 38, 1965) in the form that Sethares fitted to it (Local consonance and
// the relationship between timbre and scale, JASA 94, 1993): two pure tones
// of frequencies f1 < f2 (Hz) and amplitudes a1, a2 have the dissonance
//
//	a1·a2·(exp(−b1·s·(f2−f1)) − exp(−b2·s·(f2−f1))), s = d*/(s1·f1 + s2)
//
// with the decimals of the constants as in his published program.
const (
	slowDecay = 3.5    // b1
	fastDecay = 5.75   // b2
	mostRough = 0.24   // d*, where the curve peaks, in critical bandwidths
	widthRise = 0.0207 // s1, of the critical bandwidth with frequency
	widthBase = 18.96  // s2, Hz
)

// A note is its first six harmonic partials, each 0.88 times the amplitude of the
// one below, as in Sethares' examples.
const (
	partials     = 6
	partialDecay = 0.88
)

// negligible is the exponent past which a pair of partials adds less than a
// five-thousandth of a semitone's roughness and is left out.
const negligible = 9

// semitoneRoughness is what F4 adds to E4 by the formula above: the unit of
// [Hearing.Roughness].
const semitoneRoughness = 0.5733899635662407

// A Hearing holds the partials of a voicing, to compare notes with.
type Hearing struct {
	frequencies []float64
	amplitudes  []float64
}

// Hear returns the partials of a voicing given as MIDI keys.
func Hear(voicing []int) Hearing {
	var h Hearing
	for _, key := range voicing {
		f, a := Frequency(float64(key)), 1.0
		for k := 1; k <= partials; k++ {
			h.frequencies = append(h.frequencies, f*float64(k))
			h.amplitudes = append(h.amplitudes, a)
			a *= partialDecay
		}
	}
	return h
}

// Roughness returns the sensory dissonance that the MIDI key adds to the
// voicing: the sum over all pairs of a partial of the note and a partial of
// the voicing. It is dimensionless, 0 or more, in units of the roughness that
// F4 adds to E4: 1 is a bare semitone in the middle of the neck.
func (h Hearing) Roughness(key int) float64 {
	f, a, sum := Frequency(float64(key)), 1.0, 0.0
	for k := 1; k <= partials; k++ {
		partial := f * float64(k)
		for i, other := range h.frequencies {
			sum += a * h.amplitudes[i] * pairRoughness(partial, other)
		}
		a *= partialDecay
	}
	return sum / semitoneRoughness
}

// pairRoughness is the dissonance of two pure tones of amplitude 1. The ratio of
// the two decays is 14 to 23, so one exponential is enough.
func pairRoughness(f1, f2 float64) float64 {
	low, apart := min(f1, f2), math.Abs(f2-f1)
	width := widthRise*low + widthBase
	if apart*(slowDecay*mostRough/negligible) > width {
		return 0
	}
	y := math.Exp(-slowDecay * mostRough / 14 * apart / width)
	y2 := y * y
	y4 := y2 * y2
	y8 := y4 * y4
	y6 := y4 * y2
	return y8*y6 - y8*y8*y6*y
}
