// Package stats has the order statistics of onsets, timings and levels.
package stats

import "slices"

// Median sorts x and returns its median, 0 for no values.
func Median(x []float64) float64 { return Quantile(x, 0.5) }

// Quantile sorts x and returns the value below which the share lies, between
// neighbours in proportion.
func Quantile(x []float64, share float64) float64 {
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
