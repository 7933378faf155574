package hear

import (
	"slices"

	"heddle/hear/internal/listen"
)

// withFalseStarts adds the wrong notes that attempts began with. A player who goes
// back may miss the very first note again; the alignment goes back only to a right
// one, because most unmatched notes are strays. One that lies where the note before
// the attempt's first should be is not a stray.
func (a *aligner) withFalseStarts(pairs []pair) []pair {
	all := slices.Clone(pairs)
	for k := len(pairs) - 1; k > 0; k-- {
		first := pairs[k]
		if first.written > pairs[k-1].written || first.written == 0 {
			continue
		}
		if j := a.sureBefore(first.heard); j > pairs[k-1].heard && a.leadsTo(j, first) {
			all = slices.Insert(all, k, pair{written: first.written - 1, heard: j})
		}
	}
	return all
}

// sureBefore is the last sure note before another, or −1.
func (a *aligner) sureBefore(j int) int {
	for j--; j >= 0 && a.heard[j].Confidence < listen.Sure; j-- {
	}
	return j
}

// leadsTo reports whether a heard note comes before a pair by about the time of
// one written note.
func (a *aligner) leadsTo(j int, to pair) bool {
	stepS := a.step(to.written - 1)
	return a.lateness(a.heard[to.heard].OnsetS-a.heard[j].OnsetS-stepS, stepS) <= lateCost
}
