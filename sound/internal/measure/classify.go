package main

import (
	"fmt"
	"io"
	"math"
	"slices"
)

// The classifier is a linear one fitted by ridge regression to short-time
// spectra: the level of a note in bands a third of an octave wide at five
// moments, against the whole, and as such blind to loudness. Each note is
// tried by a fit to the others, without those of the same key, so that it is
// never told the answer. Half right is chance.
//
// Two recorded guitars can be told apart in the same way. How well is the
// measure of what to expect at best: our notes should be no easier to tell
// from recorded ones than these are from each other.

// ridge is the weight that keeps coefficients small, for standardised features.
const ridge = 30.0

// writeClassified writes how well pairs of sets are told apart.
func writeClassified(w io.Writer, sets []set) {
	fmt.Fprintf(w, "\n### Told apart by a classifier\n\n| family | one set | the other | right, %% |\n| --- | --- | --- | --- |\n")
	for i, a := range sets {
		for _, b := range sets[i+1:] {
			if a.family == b.family {
				fmt.Fprintf(w, "| %s | %s | %s | %.0f |\n", a.family, a.name, b.name, 100*toldApart(a, b))
			}
		}
	}
}

// An example is one note as the classifier sees it.
type example struct {
	key      int
	label    float64 // −1 or 1
	features []float64
}

// toldApart is the share of notes that are put into the right set, each half
// weighing the same.
func toldApart(a, b set) float64 {
	var examples []example
	for _, side := range []struct {
		s     set
		label float64
	}{{a, -1}, {b, 1}} {
		for _, key := range sortedKeys(side.s.notes) {
			if _, ok := nearest(map[bool]map[int]note{true: b.notes, false: a.notes}[side.label < 0], key); ok {
				examples = append(examples, example{key, side.label, bandsOf(side.s.notes[key])})
			}
		}
	}
	right, count := map[float64]float64{}, map[float64]float64{}
	for _, e := range examples {
		others := slices.DeleteFunc(slices.Clone(examples), func(o example) bool { return max(o.key-e.key, e.key-o.key) <= 1 })
		count[e.label]++
		if fitted(others, e.features)*e.label > 0 {
			right[e.label]++
		}
	}
	return (right[-1]/count[-1] + right[1]/count[1]) / 2
}

func sortedKeys(notes map[int]note) (keys []int) {
	for key := range notes {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// bandsOf returns a note's features.
func bandsOf(n note) (features []float64) {
	x := n.x[onset(n.x, n.rate):]
	for _, s := range []float64{0, 0.05, 0.15, 0.35, 0.7} {
		a, width := spectrum(x, int(s*n.rate), 2048, n.rate)
		for hz := 80.0; hz < 9000; hz *= math.Cbrt(2) {
			sum := 1e-12
			for i := int(hz / width); i <= int(hz*math.Cbrt(2)/width); i++ {
				sum += a[i] * a[i]
			}
			features = append(features, 10*math.Log10(sum))
		}
	}
	loudest := slices.Max(features)
	for i := range features {
		features[i] = max(features[i]-loudest, -60)
	}
	return features
}

// fitted fits a ridge regression in its dual form, which is small where there
// are fewer examples than features (Saunders, Gammerman and Vovk 1998, eq. 4),
// and returns what it says of x.
func fitted(examples []example, x []float64) float64 {
	n, width := len(examples), len(x)
	mean, spread := make([]float64, width), make([]float64, width)
	for j := range width {
		for _, e := range examples {
			mean[j] += e.features[j] / float64(n)
		}
		for _, e := range examples {
			spread[j] += (e.features[j] - mean[j]) * (e.features[j] - mean[j]) / float64(n)
		}
		spread[j] += 1e-6
	}
	product := func(a, b []float64) (sum float64) {
		for j := range width {
			sum += (a[j] - mean[j]) * (b[j] - mean[j]) / spread[j]
		}
		return sum + 1
	}
	weights := map[float64]float64{}
	for _, e := range examples {
		weights[e.label]++
	}
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n+1)
		for j := range n {
			m[i][j] = product(examples[i].features, examples[j].features)
		}
		m[i][i] += ridge * weights[examples[i].label] / float64(n) * 2 // both sides weigh the same
		m[i][n] = examples[i].label
	}
	sum := 0.0
	for i, alpha := range solve(m) {
		sum += alpha * product(examples[i].features, x)
	}
	return sum
}

// solve solves a system of linear equations, the right side in the last
// column, by Gaussian elimination. The matrix is positive definite, so that no
// rows need to be exchanged.
func solve(m [][]float64) []float64 {
	n := len(m)
	for i := range n {
		for k := i + 1; k < n; k++ {
			f := m[k][i] / m[i][i]
			for j := i; j <= n; j++ {
				m[k][j] -= f * m[i][j]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= m[i][j] * x[j]
		}
		x[i] /= m[i][i]
	}
	return x
}
