package pluck

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"heddle/finger"
	"heddle/internal/need"
	"heddle/sound/mixer"
)

// partialAt returns the complex amplitude of a frequency in a stretch of
// sound under a Hann window.
func partialAt(s []float32, from, n int, hz, rate float64) complex128 {
	var sum complex128
	for i := range n {
		w := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n))
		sum += complex(float64(s[from+i])*w, 0) * cmplx.Exp(complex(0, -2*math.Pi*hz*float64(from+i)/rate))
	}
	return sum * complex(4/float64(n), 0)
}

// measuredHz returns the frequency of the fundamental near hz from how far
// its phase turns between two stretches of sound (Flanagan and Golden 1966).
func measuredHz(s []float32, hz, rate float64) float64 {
	n := int(max(0.15, 14/hz) * rate)           // fourteen periods at least, so that no other partial leaks in
	from, hop := int(0.12*rate), int(0.04*rate) // once the body has rung out
	turned := cmplx.Phase(partialAt(s, from+hop, n, hz, rate) / partialAt(s, from, n, hz, rate))
	return hz + turned/(2*math.Pi)*rate/float64(hop)
}

func cents(a, b float64) float64 { return 1200 * math.Log2(a/b) }

// necks holds the strings of every kind of instrument, as keys from string 1
// on (common tunings), and how far up they go.
var necks = []struct {
	name    string
	kind    Strung
	open    []float64
	frets   int
	scaleMM float64
}{
	{"guitar", ElectricClean, guitarStrings, 24, 648},
	{"driven guitar", ElectricDriven, guitarStrings, 24, 648},
	{"steel-string guitar", SteelAcoustic, guitarStrings, 24, 648},
	{"nylon-string guitar", Nylon, guitarStrings, 24, 648},
	{"eight-string guitar", ElectricClean, []float64{64, 59, 55, 50, 45, 40, 35, 30}, 24, 648},
	{"six-string bass", BassGuitar, []float64{48, 43, 38, 33, 28, 23}, 24, 864},
	{"ukulele", Ukulele, []float64{69, 64, 60, 67}, 18, 380},
	{"mandolin", Mandolin, []float64{76, 69, 62, 55}, 22, 350},
}

// The pitch of every string at every fret against 440·2^((m−69)/12) Hz (ISO
// 16; equal temperament), measured in the sound itself.
func TestEveryFretOfEveryStringIsInTuneWithinACent(t *testing.T) {
	for _, rate := range []float64{48000, 44100} {
		worst, where := 0.0, ""
		for _, neck := range necks {
			for str, open := range neck.open {
				for fret := 0; fret <= neck.frets; fret++ {
					if fret%5 != 0 && !need.All() {
						continue
					}
					want := 440 * math.Exp2((open+float64(fret)-69)/12)
					got := measuredHz(played(neck.kind, open, float64(fret), neck.scaleMM, rate, 0.8), want, rate)
					if off := math.Abs(cents(got, want)); off > worst {
						worst, where = off, fmt.Sprintf("%s string %d fret %d", neck.name, str+1, fret)
					}
				}
			}
		}
		t.Logf("at %.0f Hz the worst is %s, %.3f cents off", rate, where, worst)
		if worst > 1 {
			t.Errorf("%s is %.2f cents off, want at most 1", where, worst)
		}
	}
}

// played returns a little of one note through its amp.
func played(kind Strung, open, fret, scaleMM, rate, force float64) []float32 {
	p := New(kind, []float64{open}, scaleMM, rate, mixer.Place{Left: 1, Right: 1})
	p.strike(&Note{Open: open, Fret: fret, Stroke: finger.Down, Force: force})
	s := make([]float32, int(0.8*rate))
	p.sound(s)
	if kind.out.drive < hardDrive { // beyond, difference tones of stretched partials beat with the fundamental
		p.stage.play(s, true)
	}
	return s
}
