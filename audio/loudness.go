package audio

import "math"

// A Meter measures loudness and true peak as ITU-R BS.1770-5 does: both
// channels through the K-weighting (annex 1, tables 1 and 2), mean squares of
// blocks of 400 ms that overlap by three quarters, gated at −70 LUFS and then
// 10 LU below what is left.
//
// The recommendation gives the filters' coefficients for 48 kHz. At other
// rates the same analogue filters go through the bilinear transform
// again; at 48 kHz that gives the recommendation's figures to eight
// decimals.
type Meter struct {
	rate     int
	left     kWeight
	right    kWeight
	step     int // samples of a quarter block
	filled   int
	sum      float64
	quarters [3]float64 // sums of the last three quarter blocks
	seen     int
	blocks   []float64 // mean squares of blocks above the absolute gate
	peak     truePeak
}

// The gates and the constant of annex 1.
const (
	absoluteGate  = -70.0 // LUFS
	relativeGate  = -10.0 // LU
	loudnessShift = -0.691
)

// A biquad is a filter of second order, its coefficients divided by a₀, in
// transposed direct form II.
type biquad struct{ b0, b1, b2, a1, a2, s1, s2 float64 }

// A kWeight is the K-weighting of one channel.
type kWeight struct{ shelf, cut biquad }

// newKWeight returns the weighting at a rate: a shelf of 4 dB from 1682 Hz up
// for the head, then the revised low-frequency B-curve.
func newKWeight(rate float64) kWeight {
	const (
		shelfHz, shelfDB, shelfQ = 1681.974450955533, 3.999843853973347, 0.7071752369554196
		cutHz, cutQ              = 38.13547087602444, 0.5003270373238773
		middle                   = 0.4996667741545416 // share of the shelf's gain at its corner
	)
	k := math.Tan(math.Pi * shelfHz / rate)
	high := math.Pow(10, shelfDB/20)
	mid := math.Pow(high, middle)
	a0 := 1 + k/shelfQ + k*k
	shelf := biquad{b0: (high + mid*k/shelfQ + k*k) / a0, b1: 2 * (k*k - high) / a0, b2: (high - mid*k/shelfQ + k*k) / a0, a1: 2 * (k*k - 1) / a0, a2: (1 - k/shelfQ + k*k) / a0}
	k = math.Tan(math.Pi * cutHz / rate)
	a0 = 1 + k/cutQ + k*k
	cut := biquad{b0: 1, b1: -2, b2: 1, a1: 2 * (k*k - 1) / a0, a2: (1 - k/cutQ + k*k) / a0}
	return kWeight{shelf, cut}
}

// square returns the sum of squares of weighted samples.
func (k *kWeight) square(s []float32) float64 {
	f, g, sum := k.shelf, k.cut, 0.0
	for _, in := range s {
		x := float64(in)
		y := f.b0*x + f.s1
		f.s1 = (f.b1*x + f.s2) - f.a1*y
		f.s2 = f.b2*x - f.a2*y
		z := y + g.s1
		g.s1 = (g.s2 - 2*y) - g.a1*z
		g.s2 = y - g.a2*z
		sum += z * z
	}
	k.shelf, k.cut = f, g
	return sum
}

// NewMeter returns a meter that has heard nothing.
func NewMeter(rate int) *Meter {
	return &Meter{rate: rate, left: newKWeight(float64(rate)), right: newKWeight(float64(rate)), step: rate / 10}
}

// Write takes in left and right samples of equal number.
func (m *Meter) Write(left, right []float32) {
	m.peak.hear(left, right)
	for len(left) > 0 {
		n := min(len(left), m.step-m.filled)
		m.sum += m.left.square(left[:n]) + m.right.square(right[:n])
		left, right = left[n:], right[n:]
		if m.filled += n; m.filled == m.step {
			m.quarter()
		}
	}
}

// quarter ends a quarter block.
func (m *Meter) quarter() {
	if m.seen++; m.seen >= 4 {
		mean := (m.quarters[0] + m.quarters[1] + m.quarters[2] + m.sum) / float64(4*m.step)
		if lufs(mean) > absoluteGate {
			m.blocks = append(m.blocks, mean)
		}
	}
	m.quarters = [3]float64{m.quarters[1], m.quarters[2], m.sum}
	m.sum, m.filled = 0, 0
}

// lufs turns a weighted mean square into LUFS (annex 1, equation 2).
func lufs(mean float64) float64 { return loudnessShift + 10*math.Log10(mean) }

// Loudness returns the integrated loudness in LUFS; −∞ for silence.
func (m *Meter) Loudness() float64 {
	return lufs(meanAbove(m.blocks, math.Pow(10, (lufs(meanAbove(m.blocks, 0))+relativeGate-loudnessShift)/10)))
}

// LoudnessUngated returns the loudness in LUFS of one channel as a whole, for
// sounds shorter than a gated block; −∞ for silence.
func LoudnessUngated(s []float32, rate int) float64 {
	k := newKWeight(float64(rate))
	return lufs(k.square(s) / float64(max(len(s), 1)))
}

func meanAbove(blocks []float64, gate float64) float64 {
	sum, n := 0.0, 0
	for _, b := range blocks {
		if b > gate {
			sum += b
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// TruePeak returns the highest true peak so far in dBTP; −∞ for silence.
func (m *Meter) TruePeak() float64 { return 20 * math.Log10(float64(m.peak.top)) }
