package hear

import (
	"math"
	"slices"
)

// A pulse is a player's own beat: a straight line through the onsets of one
// attempt.
type pulse struct {
	startS   float64 // when the first bar line fell
	quarterS float64 // seconds a quarter note
}

func (p pulse) at(quarters float64) float64 { return p.startS + quarters*p.quarterS }

// A struck note is an onset and where it was written.
type struck struct {
	quarters, onsetS float64
}

// How the line is made to ignore what is off: rounds of weighted least
// squares with Tukey's bisquare weights, at so many spreads.
const (
	fitRounds  = 6
	fitSpreads = 4.7 // 95 % efficient for normal errors (Huber and Ronchetti 2009)
	fitLeastS  = 0.008
)

// fitPulse fits a line to the notes near a place: those within reach
// quarters count less the farther they are. Without reach all count alike.
// A line needs two places; with fewer the given tempo stands.
func fitPulse(notes []struck, near, reach float64, given pulse) pulse {
	weight := make([]float64, len(notes))
	p := given
	for round := range fitRounds {
		spread := 0.0
		if round > 0 {
			spread = max(residualSpread(notes, p), fitLeastS)
		}
		for i, s := range notes {
			weight[i] = 1
			if reach > 0 {
				weight[i] = tricube((s.quarters - near) / reach)
			}
			if round > 0 {
				weight[i] *= bisquare((s.onsetS - p.at(s.quarters)) / (fitSpreads * spread))
			}
		}
		next, ok := weightedLine(notes, weight, p.quarterS)
		if !ok {
			return p
		}
		p = next
	}
	return p
}

func tricube(x float64) float64 {
	x = math.Abs(x)
	if x >= 1 {
		return 0
	}
	y := 1 - x*x*x
	return y * y * y
}

func bisquare(x float64) float64 {
	if math.Abs(x) >= 1 {
		return 0
	}
	y := 1 - x*x
	return y * y
}

// weightedLine is the least-squares line. The slope must stay within a third
// of the one before, or the notes do not tell it.
func weightedLine(notes []struck, weight []float64, quarterS float64) (pulse, bool) {
	var w, x, y float64
	for i, s := range notes {
		w += weight[i]
		x += weight[i] * s.quarters
		y += weight[i] * s.onsetS
	}
	if w < 1e-6 {
		return pulse{}, false
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
	return pulse{startS: y - slope*x, quarterS: slope}, slope > 0
}

// residualSpread is the median distance from the line, scaled to a standard
// deviation.
func residualSpread(notes []struck, p pulse) float64 {
	r := make([]float64, len(notes))
	for i, s := range notes {
		r[i] = math.Abs(s.onsetS - p.at(s.quarters))
	}
	return 1.4826 * median(r)
}

func median(x []float64) float64 { return quantile(x, 0.5) }

// quantile sorts x and returns the value below which the share lies.
func quantile(x []float64, share float64) float64 {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	at := share * float64(len(x)-1)
	i := int(at)
	if i+1 == len(x) {
		return x[i]
	}
	return x[i] + (at-float64(i))*(x[i+1]-x[i])
}
