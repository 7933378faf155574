package hear

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"heddle/exercise"
)

// electric is the recorded guitar that every run of the tests has.
func electric(t testing.TB) *recordedGuitar {
	t.Helper()
	if _, err := os.Stat(electricFolder); err != nil {
		t.Skip("the recorded guitar is missing (npm ci in hear/testdata/guitars)")
	}
	return readGuitar(t, electricFolder)
}

// Before it can judge, the sampler is judged: by energy and by period, not by
// what package hear makes of it.
func TestSampledNotesBeginAndSoundAsTold(t *testing.T) {
	g := electric(t)
	r := rand.New(rand.NewPCG(1, 3))
	tk := take{exercise: &exercise.Exercise{}, cents: -37}
	for i, key := range []int{40, 45, 52, 58, 64, 71, 76, 83} {
		onS := 0.3371 + 0.9*float64(i)
		tk.played = append(tk.played, played{onS: onS, offS: onS + 0.5, key: key, velocity: 100, index: -1})
	}
	x := g.play(t, tk, r)
	for _, n := range tk.played {
		at := int(n.onS * renderRate)
		const around = renderRate / 100
		if rise := decibels(x[at:at+around]) - decibels(x[at-around:at]); rise < 10 {
			t.Errorf("key %d: the energy rises by %.1f dB at its onset", n.key, rise)
		}
		if off := attackIn(x[at-renderRate/20:at+renderRate/2], renderRate) - renderRate/20; math.Abs(float64(off)) > 0.003*renderRate {
			t.Errorf("key %d: begins %.1f ms from its onset", n.key, float64(off)/renderRate*1000)
		}
		if cents := 100 * (soundingKey(x[at:], renderRate, float64(n.key)) - float64(n.key)); math.Abs(cents-tk.cents) > 12 {
			t.Errorf("key %d: sounds %.1f cents off, want %.0f", n.key, cents, tk.cents)
		}
		if left := decibels(x[at+7*renderRate/10:at+8*renderRate/10]) - decibels(x[at:at+renderRate/10]); left > -50 {
			t.Errorf("key %d: %.0f dB are left after it was damped", n.key, left)
		}
	}
}

// Hammer-ons, pull-offs and slides change the pitch and have no attack.
func TestSampledSlursChangePitchWithoutAttack(t *testing.T) {
	g := electric(t)
	r := rand.New(rand.NewPCG(2, 3))
	keys := []int{60, 62, 60, 63}
	for range 6 { // some of them slide
		tk := take{exercise: &exercise.Exercise{}}
		for i, key := range keys {
			onS := 0.2 + 0.4*float64(i)
			tk.played = append(tk.played, played{onS: onS, offS: onS + 0.4, key: key, velocity: 100, index: -1, legato: i > 0})
		}
		x := g.play(t, tk, r)
		for i, n := range tk.played {
			at := int(n.onS * renderRate)
			if got := soundingKey(x[at:at+renderRate*4/10], renderRate, float64(n.key)); math.Abs(got-float64(n.key)) > 0.12 {
				t.Errorf("key %d: sounds %.2f", n.key, got)
			}
			const around = renderRate / 20
			rise := decibels(x[at:at+around]) - decibels(x[at-around:at])
			if i > 0 && math.Abs(rise) > 6 {
				t.Errorf("key %d: the energy changes by %.1f dB at a slur", n.key, rise)
			}
		}
	}
}

func TestRecordingChainKeepsTime(t *testing.T) {
	needFFmpeg(t)
	noise := pinkish(renderRate/2, rand.New(rand.NewPCG(4, 1)))
	if lag := lagBetween(noise, mp3Coded(t, noise, 64)); lag != 0 {
		t.Errorf("coding as MP3 delays by %d samples", lag)
	}
	x := electric(t).notes[3].x
	for k := range uint64(8) {
		c := drawChain(rand.New(rand.NewPCG(k, 1)), true)
		c.kbit = 0
		y := c.microphone(t, c.amplifier(x))
		if late := attackIn(y, renderRate) - attackIn(x, renderRate); math.Abs(float64(late)) > 0.003*renderRate {
			t.Errorf("%+v moves an attack by %.1f ms", c, float64(late)/renderRate*1000)
		}
	}
}

// lagBetween is by how many samples y comes later than x, within 60 ms.
func lagBetween(x, y []float32) int {
	best, top := 0, 0.0
	const far = renderRate * 6 / 100
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

// Takes of the recorded guitar are marked in every run of the tests, dry and
// through what home recordings go through. The bounds are looser than the
// evaluation's, for a few hundred notes.
func TestSampledGuitarIsMarked(t *testing.T) {
	if testing.Short() {
		t.Skip("rendering takes some seconds")
	}
	g := electric(t)
	var all tally
	for s, setting := range evalSettings {
		if setting == "bleed" {
			continue // the band comes from a sound font
		}
		evaluate(t, g, s, 2, func(take) []*tally { return []*tally{&all} })
	}
	t.Logf("\n%s\n            %v\n            %v", tallyHead, &all, &all.fine)
	lost, _ := all.others(Right)
	passed, _ := all.passed(Wrong)
	if all.f() < 0.95 || lost > 0.04 || passed > 0.1 || all.medianMS() > 8 {
		t.Errorf("%v", &all)
	}
}
