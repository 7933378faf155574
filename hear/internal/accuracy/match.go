// Package accuracy scores heard notes against the true ones.
package accuracy

import (
	"math"
	"slices"
)

// A Note is an onset, in seconds, and a pitch as a MIDI key with its fraction.
type Note struct{ OnsetS, MIDI float64 }

// The published rule for onsets and pitches of transcribed notes (Raffel et
// al., mir_eval, ISMIR 2014): within 50 ms and 50 cents, both inclusive,
// each note of either side used at most once, as many pairs as possible.
const (
	OnsetWithinS    = 0.050
	PitchWithinKeys = 0.50
)

// Match returns for each true note the heard note it is paired with, or
// −1, by augmenting paths.
func Match(truth, heard []Note) []int {
	close := make([][]int, len(truth))
	for i, n := range truth {
		for j, h := range heard {
			if math.Abs(h.OnsetS-n.OnsetS) <= OnsetWithinS && math.Abs(h.MIDI-n.MIDI) <= PitchWithinKeys {
				close[i] = append(close[i], j)
			}
		}
	}
	takenBy := slices.Repeat([]int{-1}, len(heard))
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
	pairs := slices.Repeat([]int{-1}, len(truth))
	for j, i := range takenBy {
		if i >= 0 {
			pairs[i] = j
		}
	}
	return pairs
}

// F is the F measure: the harmonic mean of the shares of true and of heard notes that
// are paired.
func F(paired, truth, heard int) float64 {
	if truth+heard == 0 {
		return 1
	}
	return 2 * float64(paired) / float64(truth+heard)
}

// Paired counts the pairs of [Match].
func Paired(pairs []int) (count int) {
	for _, j := range pairs {
		if j >= 0 {
			count++
		}
	}
	return count
}
