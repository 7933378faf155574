package neck

import (
	"cmp"
	"slices"
)

// rising returns the numbers of the strings that a hand crosses to go from low to
// high, the lowest-sounding first: all of them, except in a re-entrant tuning or
// with double courses. There it is the longest series of strings, from the last
// to string 1 or the other way round, in which each is higher than the one
// before; of several, the one that covers the most semitones. A ukulele's is C4,
// E4, A4: its G4 string, beside C4, is re-entrant.
func (in Instrument) rising() []int {
	last := make([]int, in.Strings())
	for i := range last {
		last[i] = in.Strings() - i
	}
	if slices.IsSortedFunc(last, func(a, b int) int { return cmp.Or(in.Open[a-1].MIDI()-in.Open[b-1].MIDI(), -1) }) {
		return last
	}
	up := in.longestRise(last)
	slices.Reverse(last)
	if down := in.longestRise(last); len(down) > len(up) {
		return down
	}
	return up
}

// longestRise returns the longest series of strings, taken in order, in which each
// is higher than the one before; of several, the one that covers the most
// semitones, then the first.
func (in Instrument) longestRise(order []int) []int {
	var best []int
	span := func(series []int) int {
		return in.Open[series[len(series)-1]-1].MIDI() - in.Open[series[0]-1].MIDI()
	}
	better := func(a, b []int) bool {
		return len(a) > len(b) || len(a) == len(b) && len(a) > 0 && span(a) > span(b)
	}
	ending := make([][]int, len(order)) // by its last string
	for i, number := range order {
		ending[i] = []int{number}
		for j, before := range order[:i] {
			if in.Open[before-1].MIDI() < in.Open[number-1].MIDI() {
				if longer := append(slices.Clone(ending[j]), number); better(longer, ending[i]) {
					ending[i] = longer
				}
			}
		}
		if better(ending[i], best) {
			best = ending[i]
		}
	}
	return best
}
