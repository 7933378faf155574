package main

import (
	"fmt"
	"math"
	"math/cmplx"
	"strings"

	"gonum.org/v1/gonum/dsp/fourier"
)

// edges are the bands' edges in Hz.
var edges = []float64{40, 120, 300, 1000, 2000, 5000, 12000}

// bands returns the level of the sum of both sides in each band, in dB.
func (h *heard) bands() []float64 {
	const n = 8192
	fft := fourier.NewFFT(n)
	energy := make([]float64, len(edges)-1)
	framed := make([]float64, n)
	frames := 0
	for at := 0; at+n <= len(h.left); at += n {
		for i := range framed {
			w := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/n)
			framed[i] = w * float64(h.left[at+i]+h.right[at+i]) / 2
		}
		for i, c := range fft.Coefficients(nil, framed) {
			hz := float64(i) * float64(h.rate) / n
			for k := range energy {
				if hz >= edges[k] && hz < edges[k+1] {
					energy[k] += math.Pow(cmplx.Abs(c), 2)
				}
			}
		}
		frames++
	}
	for k, e := range energy {
		energy[k] = 10 * math.Log10(e/float64(max(frames, 1))/n/n*8+1e-12)
	}
	return energy
}

func (h *heard) bandText() string {
	var words []string
	for _, b := range h.bands() {
		words = append(words, fmt.Sprintf("%.0f", b))
	}
	return strings.Join(words, " ")
}

// sides is the energy of the difference between the sides against that of
// their sum: 0 is mono.
func (h *heard) sides() float64 {
	mid, side := 1e-12, 0.0
	for i, l := range h.left {
		mid += math.Pow(float64(l+h.right[i]), 2)
		side += math.Pow(float64(l-h.right[i]), 2)
	}
	return side / mid
}
