package main

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"

	"heddle/pitch"
)

// A measured note.
type measured struct {
	decay    [9]float64 // dB/s of partials 1–9, 0.08–0.58 s after the stroke; NaN where too weak
	level    [4]float64 // dB at levelS, against that at 0.05 s
	centroid [4]float64 // Hz at centroidS
	attackMS float64    // from −20 dB to −3 dB of the highest level
	b        float64    // inharmonicity: partial k lies at k·f₀·√(1+B·k²) (Fletcher and Rossing 1998, eq. 2.68)
	hz       float64    // the first partial
}

// When level and centroid are taken, in seconds after the stroke.
var (
	levelS    = [4]float64{0.25, 0.5, 1, 2}
	centroidS = [4]float64{0.03, 0.25, 0.5, 1}
)

// measure measures a note that begins near the start of its samples.
func measure(n note) measured {
	at := onset(n.x, n.rate)
	x := n.x[at:]
	m := measured{attackMS: attackMS(n.x, n.rate)}
	start := levelDB(x, 0.05, n.rate)
	for i, s := range levelS {
		m.level[i] = levelDB(x, s, n.rate) - start
	}
	for i, s := range centroidS {
		m.centroid[i] = centroid(x, s, n.rate)
	}
	var partials []float64
	partials, m.hz, m.b = findPartials(x, pitch.Frequency(float64(n.key)), n.rate)
	for i := range m.decay {
		m.decay[i] = math.NaN()
		if i < len(partials) && partials[i] > 0 {
			m.decay[i] = decayOf(x, partials[i], m.hz, n.rate)
		}
	}
	return m
}

// onset returns the sample at which the level over 2 ms first comes within
// 26 dB of its highest.
func onset(x []float32, rate float64) int {
	n := int(0.002 * rate)
	top := 0.0
	var energies []float64
	for at := 0; at+n <= len(x); at += n / 4 {
		sum := 0.0
		for _, v := range x[at : at+n] {
			sum += float64(v) * float64(v)
		}
		energies = append(energies, sum)
		top = max(top, sum)
	}
	for i, e := range energies {
		if e > top*math.Pow(10, -2.6) {
			return min(i*(n/4)+n/2, len(x))
		}
	}
	return 0
}

// attackMS is the time from 20 dB below the highest level over 5 ms to 3 dB
// below it.
func attackMS(x []float32, rate float64) float64 {
	n := int(0.005 * rate)
	var level []float64
	top := math.Inf(-1)
	for at := 0; at+n <= min(len(x), int(0.4*rate)); at += n / 10 {
		sum := 1e-12
		for _, v := range x[at : at+n] {
			sum += float64(v) * float64(v)
		}
		level = append(level, 10*math.Log10(sum))
		top = max(top, level[len(level)-1])
	}
	begin := -1
	for i, l := range level {
		if begin < 0 && l > top-20 {
			begin = i
		}
		if l > top-3 {
			return float64(i-begin) * float64(n/10) / rate * 1000
		}
	}
	return 0
}

// levelDB returns the RMS level of 50 ms round a time.
func levelDB(x []float32, s, rate float64) float64 {
	from, to := int((s-0.025)*rate), int((s+0.025)*rate)
	if to > len(x) {
		return math.NaN()
	}
	sum := 1e-20
	for _, v := range x[from:to] {
		sum += float64(v) * float64(v)
	}
	return 10 * math.Log10(sum/float64(to-from))
}

// spectrum returns amplitudes under a Hann window and the width of a bin.
func spectrum(x []float32, at, n int, rate float64) ([]float64, float64) {
	framed := make([]float64, n)
	for i := range framed {
		if at+i < len(x) {
			framed[i] = float64(x[at+i]) * (0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n)))
		}
	}
	bins := fourier.NewFFT(n).Coefficients(nil, framed)
	amplitudes := make([]float64, len(bins))
	for i, b := range bins {
		amplitudes[i] = cmplx.Abs(b) * 4 / float64(n)
	}
	return amplitudes, rate / float64(n)
}

// centroid is the mean frequency up to 10 kHz by amplitude, of 4096 samples
// from a time on.
func centroid(x []float32, s, rate float64) float64 {
	a, width := spectrum(x, int(s*rate), 4096, rate)
	sum, weight := 0.0, 0.0
	for i, v := range a {
		if hz := float64(i) * width; hz > 40 && hz < 10000 {
			sum += v * hz
			weight += v
		}
	}
	return sum / weight
}

// mostPartials is how many partials the inharmonicity is fitted to.
const mostPartials = 16

// findPartials returns the frequencies of the partials (0 where none stands
// out), f₀ and B, by looking for each where those before it say that it lies.
func findPartials(x []float32, hz, rate float64) (partials []float64, f0, b float64) {
	const n = 1 << 15
	a, width := spectrum(x, int(0.04*rate), n, rate)
	f0 = hz
	top := 0.0
	for k := 1.0; k <= mostPartials; k++ {
		expected := k * f0 * math.Sqrt(1+b*k*k)
		reach := 0.025 * expected
		if k > 3 {
			reach = 0.2 * f0
		}
		found, amplitude := peak(a, width, expected-reach, expected+reach)
		top = max(top, amplitude)
		if amplitude < top*1e-3 {
			found = 0
		}
		partials = append(partials, found)
		if k >= 3 {
			f0, b = fitStiffness(partials)
		} else if k == 1 && found > 0 {
			f0 = found
		}
	}
	return partials, f0, b
}

// peak returns the highest peak in a band, its place by a parabola through
// the logarithms of three bins.
func peak(a []float64, width, low, high float64) (hz, amplitude float64) {
	best := 0
	for i := max(1, int(low/width)); i <= min(len(a)-2, int(high/width)+1); i++ {
		if a[i] > a[i-1] && a[i] >= a[i+1] && (best == 0 || a[i] > a[best]) {
			best = i
		}
	}
	if best == 0 {
		return 0, 0
	}
	l, c, r := math.Log(a[best-1]+1e-15), math.Log(a[best]+1e-15), math.Log(a[best+1]+1e-15)
	return (float64(best) + (l-r)/(2*(l-2*c+r))) * width, a[best]
}

// fitStiffness fits (f/k)² = f₀²·(1 + B·k²) by least squares; B is at least 0.
func fitStiffness(partials []float64) (f0, b float64) {
	var n, sx, sy, sxx, sxy float64
	for i, hz := range partials {
		if hz == 0 {
			continue
		}
		k := float64(i + 1)
		x, y := k*k, (hz/k)*(hz/k)
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	slope := (n*sxy - sx*sy) / (n*sxx - sx*sx)
	level := (sy - slope*sx) / n
	if !(slope > 0) || level <= 0 {
		return math.Sqrt(sy / n), 0
	}
	return math.Sqrt(level), slope / level
}

// decayOf is the fall of a partial in dB/s from 0.08 to 0.58 s: the slope of a
// line through levels 20 ms apart, as far as they stay above the noise.
func decayOf(x []float32, hz, f0, rate float64) float64 {
	n := int(max(0.06, 6/f0) * rate)
	var t, y []float64
	floor := math.Inf(-1)
	for s := 0.08; s <= 0.58; s += 0.02 {
		at := int(s*rate) - n/2
		if at < 0 || at+n > len(x) {
			continue
		}
		l := 20 * math.Log10(amplitude(x[at:at+n], hz, rate)+1e-9)
		floor = max(floor, l-45)
		if l < floor || l < -110 {
			break
		}
		t, y = append(t, s), append(y, l)
	}
	if len(t) < 5 {
		return math.NaN()
	}
	var sx, sy, sxx, sxy float64
	for i := range t {
		sx, sy, sxx, sxy = sx+t[i], sy+y[i], sxx+t[i]*t[i], sxy+t[i]*y[i]
	}
	m := float64(len(t))
	return -(m*sxy - sx*sy) / (m*sxx - sx*sx)
}

// amplitude is that of a frequency under a Hann window.
func amplitude(x []float32, hz, rate float64) float64 {
	turn := cmplx.Exp(complex(0, -2*math.Pi*hz/rate))
	phasor, sum := complex(1, 0), complex(0, 0)
	for i, v := range x {
		w := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(len(x)))
		sum += complex(float64(v)*w, 0) * phasor
		phasor *= turn
	}
	return cmplx.Abs(sum) * 4 / float64(len(x))
}
