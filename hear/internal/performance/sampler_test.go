package performance

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"heddle/exercise"
	"heddle/hear/internal/spectral"
	"heddle/hear/internal/synthetic"
	"heddle/internal/need"
)

// readElectric reads the recorded guitar once for all tests.
var readElectric = sync.OnceValues(func() (*Recorded, error) { return ReadGuitar(ElectricFolder("../..")) })

func electric(t testing.TB) *Recorded {
	t.Helper()
	need.File(t, "the recorded guitar (npm ci in hear/testdata/guitars)", ElectricFolder("../.."))
	g, err := readElectric()
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The sampler is checked by energy and by period, not by what package hear makes of
// it.
func TestSampledNotesBeginAndSoundAsAsked(t *testing.T) {
	g := electric(t)
	r := rand.New(rand.NewPCG(1, 3))
	tk := Take{Exercise: &exercise.Exercise{}, Cents: -37}
	for i, key := range []int{40, 45, 52, 58, 64, 71, 76, 83} {
		onS := 0.3371 + 0.9*float64(i)
		tk.Played = append(tk.Played, Note{OnS: onS, OffS: onS + 0.5, Key: key, Velocity: 100, Index: -1})
	}
	x := play(t, g, tk, r)
	for _, n := range tk.Played {
		at := int(n.OnS * synthetic.Rate)
		const around = synthetic.Rate / 100
		if rise := spectral.Decibels(x[at:at+around]) - spectral.Decibels(x[at-around:at]); rise < 10 {
			t.Errorf("key %d: the energy rises by %.1f dB at its onset", n.Key, rise)
		}
		if off := AttackIn(x[at-synthetic.Rate/20:at+synthetic.Rate/2], synthetic.Rate) - synthetic.Rate/20; math.Abs(float64(off)) > 0.003*synthetic.Rate {
			t.Errorf("key %d: begins %.1f ms from its onset", n.Key, float64(off)/synthetic.Rate*1000)
		}
		if cents := 100 * (soundingKey(x[at:], synthetic.Rate, float64(n.Key)) - float64(n.Key)); math.Abs(cents-tk.Cents) > 12 {
			t.Errorf("key %d: sounds %.1f cents off, want %.0f", n.Key, cents, tk.Cents)
		}
		if left := spectral.Decibels(x[at+7*synthetic.Rate/10:at+8*synthetic.Rate/10]) - spectral.Decibels(x[at:at+synthetic.Rate/10]); left > -50 {
			t.Errorf("key %d: %.0f dB are left after it was damped", n.Key, left)
		}
	}
}

func play(t testing.TB, g Guitar, tk Take, r *rand.Rand) []float32 {
	t.Helper()
	x, err := g.Play(tk, r)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Hammer-ons, pull-offs and slides change the pitch and have no attack.
func TestSampledSlursChangePitchWithoutAttack(t *testing.T) {
	g := electric(t)
	r := rand.New(rand.NewPCG(2, 3))
	keys := []int{60, 62, 60, 63}
	for range 6 { // some of them slide
		tk := Take{Exercise: &exercise.Exercise{}}
		for i, key := range keys {
			onS := 0.2 + 0.4*float64(i)
			tk.Played = append(tk.Played, Note{OnS: onS, OffS: onS + 0.4, Key: key, Velocity: 100, Index: -1, Legato: i > 0})
		}
		x := play(t, g, tk, r)
		for i, n := range tk.Played {
			at := int(n.OnS * synthetic.Rate)
			if got := soundingKey(x[at:at+synthetic.Rate*4/10], synthetic.Rate, float64(n.Key)); math.Abs(got-float64(n.Key)) > 0.12 {
				t.Errorf("key %d: sounds %.2f", n.Key, got)
			}
			const around = synthetic.Rate / 20
			rise := spectral.Decibels(x[at:at+around]) - spectral.Decibels(x[at-around:at])
			if i > 0 && math.Abs(rise) > 6 {
				t.Errorf("key %d: the energy changes by %.1f dB at a slur", n.Key, rise)
			}
		}
	}
}

func TestRecordingChainKeepsTime(t *testing.T) {
	need.Program(t, "coding as MP3 keeps time", "ffmpeg")
	noise := synthetic.Pink(synthetic.Rate/2, rand.New(rand.NewPCG(4, 1)))
	coded, err := mp3Coded(noise, 64)
	if err != nil {
		t.Fatal(err)
	}
	if lag := lagBetween(noise, coded); lag != 0 {
		t.Errorf("coding as MP3 delays by %d samples", lag)
	}
	x := electric(t).notes[3].x
	for k := range uint64(8) {
		c := DrawChain(rand.New(rand.NewPCG(k, 1)), true)
		c.kbit = 0
		y, err := c.Microphone(c.Amplifier(x))
		if err != nil {
			t.Fatal(err)
		}
		if late := AttackIn(y, synthetic.Rate) - AttackIn(x, synthetic.Rate); math.Abs(float64(late)) > 0.003*synthetic.Rate {
			t.Errorf("%+v moves an attack by %.1f ms", c, float64(late)/synthetic.Rate*1000)
		}
	}
}

// lagBetween is by how many samples y comes later than x, within 60 ms.
func lagBetween(x, y []float32) int {
	best, top := 0, 0.0
	const far = synthetic.Rate * 6 / 100
	for lag := -far; lag <= far; lag++ {
		sum := 0.0
		for i := far; i < len(x)-far && i+lag < len(y); i += 2 {
			sum += float64(x[i]) * float64(y[i+lag])
		}
		if sum > top {
			best, top = lag, sum
		}
	}
	return best
}
