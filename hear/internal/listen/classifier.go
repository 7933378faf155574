package listen

import (
	_ "embed"
	"encoding/json"
	"math"
	"sync"
)

// HiddenCount is the width of a classifier's one hidden layer.
const HiddenCount = 40

// A Classifier says how likely a note of a candidate's pitch begins at its
// moment: a small network fitted to takes of many guitars. The last weight of
// each row is its bias. doc/adr/0006-note-classifier.md says why a network.
type Classifier struct {
	Hidden [HiddenCount][FeatureCount + 1]float32
	Out    [HiddenCount + 1]float32
}

// Classifiers are the two that were fitted.
type Classifiers struct {
	Whole Classifier // for moments of which all was heard
	Early Classifier // for live moments of which only the beginning was heard
}

// fittedWeights are Classifiers as JSON, written by hear/internal/fit.
//
//go:embed weights.json
var fittedWeights []byte

var fitted = sync.OnceValue(func() *Classifiers {
	c := new(Classifiers)
	if err := json.Unmarshal(fittedWeights, c); err != nil {
		panic("listen: weights.json: " + err.Error())
	}
	return c
})

// LogOdds are the log odds for a candidate.
func (c *Classifier) LogOdds(features *[FeatureCount]float32) float64 {
	sum := c.Out[HiddenCount]
	for h := range c.Hidden {
		w := &c.Hidden[h]
		z := w[FeatureCount]
		for i, f := range features {
			z += w[i] * f
		}
		sum += c.Out[h] * float32(math.Tanh(float64(z)))
	}
	return float64(sum)
}
