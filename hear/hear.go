package hear

import "math"

const (
	hop  = 80
	hopS = float64(hop) / rate
)
func lagOf(midi float64) float64 { return rate / (440 * math.Exp2((midi-69)/12)) }
