package hear

import (
	"math"
	"slices"

	"heddle/hear/internal/stats"
)

// Which tempi are tried for a take without a click, and what favours the written
// one: players practise slower or faster, but where a few notes leave it open,
// half the tempo is more likely a misreading. The cost, in missed notes, is for an
// octave of tempo and grows with its square, so that three quarters cost little.
const (
	tempoCost    = 1.5
	slowestTried = 0.25 // of the written tempo
	fastestTried = 3.0
	slowestStep  = 0.46 // of the written tempo: from here all tempi are tried in steps, up to
	fastestStep  = 1.65 // this
	tempoStep    = 1.1  // which is within what an alignment tolerates
	tempoApart   = 0.04 // tempi that are nearer to each other, as a ratio, are one
	manyPaces    = 100  // of which the median can't be far off
	tempoRounds  = 2    // of setting the tempo by the pairs that it brings
)

// paceShares are the quantiles of the paces between neighbouring pairs that are
// tried: where most pairs are misled, so is the median.
var paceShares = []float64{0.2, 0.35, 0.5, 0.65, 0.8}

// findTempo aligns a take without a click at each tempo that it may have, and
// takes the cheapest reading.
func (m *marker) findTempo() []pair {
	pairs, _ := m.align()
	var best []pair
	bestQuarterS, bestCost := 60/m.ex.Tempo, math.Inf(1)
	for _, quarterS := range m.tempi(pairs) {
		m.quarterS = quarterS
		pairs, cost := m.align()
		cost += m.tempoCost()
		for range tempoRounds {
			found := stats.Median(m.paces(pairs))
			if found == 0 {
				break
			}
			before := m.quarterS
			m.quarterS = found
			again, c := m.align()
			if c += m.tempoCost(); c >= cost {
				m.quarterS = before
				break
			}
			pairs, cost = again, c
		}
		if cost < bestCost {
			best, bestQuarterS, bestCost = pairs, m.quarterS, cost
		}
	}
	m.quarterS = bestQuarterS
	return best
}

// tempi are the lengths of a quarter note that are tried: the written one, and
// those that an alignment by pitch alone suggests, with its half and its double.
func (m *marker) tempi(pairs []pair) []float64 {
	written := 60 / m.ex.Tempo
	tempi := []float64{written}
	try := func(quarterS float64) {
		ratio := written / quarterS
		near := func(other float64) bool { return math.Abs(math.Log(other/quarterS)) < tempoApart }
		if ratio >= slowestTried && ratio <= fastestTried && !slices.ContainsFunc(tempi, near) {
			tempi = append(tempi, quarterS)
		}
	}
	paces := m.paces(pairs)
	if len(paces) > manyPaces {
		try(stats.Median(paces))
		return tempi
	}
	for _, share := range paceShares {
		if pace := stats.Quantile(paces, share); pace > 0 {
			try(pace)
		}
	}
	if pace := stats.Median(paces); pace > 0 {
		try(pace / 2)
		try(pace * 2)
	}
	for ratio := slowestStep; ratio <= fastestStep; ratio *= tempoStep {
		try(written / ratio)
	}
	return tempi
}

// tempoCost is the cost of not being the written tempo.
func (m *marker) tempoCost() float64 {
	octaves := math.Log2(m.quarterS * m.ex.Tempo / 60)
	return tempoCost * octaves * octaves
}

// paces is how long a quarter note takes between neighbouring pairs.
func (m *marker) paces(pairs []pair) []float64 {
	var paces []float64
	for k := 1; k < len(pairs); k++ {
		a, b := pairs[k-1], pairs[k]
		quarters := m.written[b.written].quarters - m.written[a.written].quarters
		if b.written > a.written && b.written-a.written <= 2 && quarters > 0 {
			paces = append(paces, (m.heard[b.heard].OnsetS-m.heard[a.heard].OnsetS)/quarters)
		}
	}
	return paces
}
