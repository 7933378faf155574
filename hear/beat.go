package hear

import (
	"math"

	"heddle/hear/internal/stats"
)

// A beat is a player's own beat: a straight line through the onsets of one
// attempt.
type beat struct {
	startS   float64 // when the first bar line fell
	quarterS float64 // seconds in a quarter note
}

func (b beat) at(quarters float64) float64 { return b.startS + quarters*b.quarterS }

// A struck note is an onset and where it was written.
type struck struct {
	quarters, onsetS float64
}

// The line ignores what is off: rounds of weighted least squares with Tukey's
// bisquare weights at this many spreads.
const (
	fitRounds  = 6
	fitSpreads = 4.7 // 95 % efficient for normal errors (Huber and Ronchetti 2009)
	fitLeastS  = 0.008
)

// fitBeat fits a line to the notes near a place: within reach quarters, the
// farther the less they count. With reach 0 all count alike. A line needs two
// places; with fewer, the given tempo stays.
func fitBeat(notes []struck, near, reach float64, given beat) beat {
	weight := make([]float64, len(notes))
	b := given
	for round := range fitRounds {
		spread := 0.0
		if round > 0 {
			spread = max(residualSpread(notes, b), fitLeastS)
		}
		for i, s := range notes {
			weight[i] = 1
			if reach > 0 {
				weight[i] = tricube((s.quarters - near) / reach)
			}
			if round > 0 {
				weight[i] *= bisquare((s.onsetS - b.at(s.quarters)) / (fitSpreads * spread))
			}
		}
		next, ok := weightedLine(notes, weight, b.quarterS)
		if !ok {
			return b
		}
		b = next
	}
	return b
}

func tricube(x float64) float64 {
	y := max(0, 1-math.Abs(x*x*x))
	return y * y * y
}

func bisquare(x float64) float64 {
	y := max(0, 1-x*x)
	return y * y
}

// weightedLine is the least-squares line. Its slope must be within a third of the
// one before, or the notes don't determine it.
func weightedLine(notes []struck, weight []float64, quarterS float64) (beat, bool) {
	var w, x, y float64
	for i, s := range notes {
		w += weight[i]
		x += weight[i] * s.quarters
		y += weight[i] * s.onsetS
	}
	if w < 1e-6 {
		return beat{}, false
	}
	x, y = x/w, y/w
	var xx, xy float64
	for i, s := range notes {
		xx += weight[i] * (s.quarters - x) * (s.quarters - x)
		xy += weight[i] * (s.quarters - x) * (s.onsetS - y)
	}
	slope := quarterS
	if xx > 1e-6*w {
		if s := xy / xx; quarterS == 0 || s > quarterS*2/3 && s < quarterS*3/2 {
			slope = s
		}
	}
	return beat{startS: y - slope*x, quarterS: slope}, slope > 0
}

// residualSpread is the median distance from the line, scaled to a standard
// deviation.
func residualSpread(notes []struck, b beat) float64 {
	r := make([]float64, len(notes))
	for i, s := range notes {
		r[i] = math.Abs(s.onsetS - b.at(s.quarters))
	}
	return 1.4826 * stats.Median(r)
}
