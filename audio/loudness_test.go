package audio

import (
	"math"
	"testing"

	"heddle/internal/need"
)

// sine returns seconds of a sine at a level in dBFS of its peaks.
func sine(hz, dB, seconds float64, rate int) []float32 {
	s := make([]float32, int(seconds*float64(rate)))
	level := math.Pow(10, dB/20)
	for i := range s {
		s[i] = float32(level * math.Sin(2*math.Pi*hz*float64(i)/float64(rate)))
	}
	return s
}

// The coefficients of ITU-R BS.1770-5, annex 1, tables 1 and 2, for 48 kHz.
func TestKWeightingHasTheRecommendationsCoefficients(t *testing.T) {
	k := newKWeight(48000)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"shelf b0", k.shelf.b0, 1.53512485958697}, {"shelf b1", k.shelf.b1, -2.69169618940638}, {"shelf b2", k.shelf.b2, 1.19839281085285},
		{"shelf a1", k.shelf.a1, -1.69065929318241}, {"shelf a2", k.shelf.a2, 0.73248077421585},
		{"cut b0", k.cut.b0, 1}, {"cut b1", k.cut.b1, -2}, {"cut b2", k.cut.b2, 1},
		{"cut a1", k.cut.a1, -1.99004745483398}, {"cut a2", k.cut.a2, 0.99007225036621},
	} {
		if math.Abs(c.got-c.want) > 1e-8 {
			t.Errorf("%s is %.14f, want %.14f", c.name, c.got, c.want)
		}
	}
}

// The reference tone of ITU-R BS.1770-5, annex 1: a 0 dB FS 997 Hz sine in one
// front channel reads −3.01 LKFS. The others are tests 1 to 5 of EBU Tech
// 3341, table 1 (tolerance ±0.1 LU).
func TestLoudnessOfReferenceTones(t *testing.T) {
	type part struct{ dB, seconds float64 }
	for _, c := range []struct {
		name  string
		hz    float64
		parts []part
		mono  bool
		want  float64
		near  float64
	}{
		{"BS.1770 reference tone", 997, []part{{0, 20}}, true, -3.01, 0.01},
		{"Tech 3341 test 1", 1000, []part{{-23, 20}}, false, -23, 0.1},
		{"Tech 3341 test 2", 1000, []part{{-33, 20}}, false, -33, 0.1},
		{"Tech 3341 test 3", 1000, []part{{-36, 10}, {-23, 60}, {-36, 10}}, false, -23, 0.1},
		{"Tech 3341 test 4", 1000, []part{{-72, 10}, {-36, 10}, {-23, 60}, {-36, 10}, {-72, 10}}, false, -23, 0.1},
		{"Tech 3341 test 5", 1000, []part{{-26, 20}, {-20, 20.1}, {-26, 20}}, false, -23, 0.1},
	} {
		rates := []int{48000}
		if c.mono && need.All() {
			rates = []int{22050, 24000, 32000, 44100, 48000, 96000}
		}
		for _, rate := range rates {
			m := NewMeter(rate)
			for _, p := range c.parts {
				left := sine(c.hz, p.dB, p.seconds, rate)
				right := left
				if c.mono {
					right = make([]float32, len(left))
				}
				m.Write(left, right)
			}
			near := c.near
			if rate != 48000 {
				near = 0.05 // the bilinear transform bends the shelf's top a little at other rates
			}
			if got := m.Loudness(); math.Abs(got-c.want) > near {
				t.Errorf("%s at %d Hz reads %.3f LUFS, want %.2f", c.name, rate, got, c.want)
			}
		}
	}
}

// Tests 15 to 17 of EBU Tech 3341, table 1: a sine at a quarter of the rate
// whose samples miss its peaks reads the peaks, +0.2/−0.4 dB.
func TestTruePeakStandsBetweenSamples(t *testing.T) {
	for _, c := range []struct{ share, phase, want float64 }{
		{4, 0, -6}, {4, 45, -6}, {6, 60, -6}, {8, 67.5, -6},
	} {
		s := make([]float32, 48000)
		for i := range s {
			s[i] = float32(0.5 * math.Sin(2*math.Pi*float64(i)/c.share+c.phase*math.Pi/180) * min(1, float64(i)/9600, float64(len(s)-1-i)/9600))
		}
		m := NewMeter(48000)
		m.Write(s, make([]float32, len(s)))
		if got := m.TruePeak(); got > c.want+0.2 || got < c.want-0.4 {
			t.Errorf("a sine at 1/%g of the rate, phase %g°, reads %.2f dBTP, want %.1f", c.share, c.phase, got, c.want)
		}
	}
}

func TestSilenceHasNoLoudness(t *testing.T) {
	m := NewMeter(48000)
	m.Write(make([]float32, 96000), make([]float32, 96000))
	if !math.IsInf(m.Loudness(), -1) || !math.IsInf(m.TruePeak(), -1) {
		t.Errorf("silence reads %g LUFS and %g dBTP, want −∞", m.Loudness(), m.TruePeak())
	}
}
