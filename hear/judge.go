package hear

import "math"

// hiddenCount is the width of the judge's one hidden layer.
const hiddenCount = 40

// A judge says how likely a note of a candidate's pitch begins at its moment:
// a small network that was fitted to takes of many guitars (TestFit).
type judge struct {
	hidden [hiddenCount][signCount + 1]float32 // the last weight of each stands alone
	out    [hiddenCount + 1]float32
}

// odds is the logarithm of the odds for a candidate.
func (j *judge) odds(signs *[signCount]float32) float64 {
	sum := j.out[hiddenCount]
	for h := range j.hidden {
		w := &j.hidden[h]
		z := w[signCount]
		for i, s := range signs {
			z += w[i] * s
		}
		sum += j.out[h] * float32(math.Tanh(float64(z)))
	}
	return float64(sum)
}
