package main

import (
	"math"
	"testing"
)

// synthetic returns three seconds of partials whose decay and stiffness are
// known: partial k falls by 5·k dB/s.
func synthetic(hz, b float64) note {
	const rate = 48000
	n := note{key: 45, rate: rate, x: make([]float32, 3*rate)}
	for k := 1.0; k <= 12; k++ {
		f := k * hz * math.Sqrt(1+b*k*k)
		for i := range n.x {
			s := float64(i) / rate
			n.x[i] += float32(0.1 / k * math.Pow(10, -5*k*s/20) * math.Sin(2*math.Pi*f*s))
		}
	}
	return n
}

func TestKnownDecaysAndStiffnessAreMeasured(t *testing.T) {
	for _, b := range []float64{0, 1e-4, 4e-4} {
		m := measure(synthetic(110, b))
		for i, d := range m.decay {
			if want := 5 * float64(i+1); math.Abs(d-want) > 0.5 {
				t.Errorf("B = %g: partial %d falls by %.2f dB/s, want %g", b, i+1, d, want)
			}
		}
		if math.Abs(m.b-b) > 0.05e-4 {
			t.Errorf("B is measured as %g, want %g", m.b, b)
		}
	}
}

// A set is no different from itself with other loudness, and plainly different
// from one with other decays.
func TestTheClassifierTellsOnlyWhatDiffers(t *testing.T) {
	a, quiet, dull := map[int]note{}, map[int]note{}, map[int]note{}
	for i := range 12 {
		n := synthetic(110*math.Exp2(float64(i)/6), 1e-4)
		n.key = 45 + 2*i
		a[n.key] = n
		q, d := note{n.key, nil, n.rate}, note{n.key, nil, n.rate}
		for j, x := range n.x {
			q.x = append(q.x, x/4)
			d.x = append(d.x, x*float32(math.Exp(-float64(j)/9000)))
		}
		quiet[n.key], dull[n.key] = q, d
	}
	if got := toldApart(set{notes: a}, set{notes: quiet}); got > 0.6 {
		t.Errorf("the same notes, quieter, are told apart in %.0f %%", 100*got)
	}
	if got := toldApart(set{notes: a}, set{notes: dull}); got < 0.95 {
		t.Errorf("duller notes are told apart in only %.0f %%", 100*got)
	}
}
