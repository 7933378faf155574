package drumkit

import (
	"math"
	"slices"
	"testing"

	"heddle/sound/mixer"
)

// Every stroke begins within a millisecond, so that it falls on the beat, ends in
// silence, has no direct current, and no two takes of it are alike.
func TestStrokesBeginAtOnceAndEndInSilence(t *testing.T) {
	for p, mix := range kitMix {
		if mix.file == "" {
			t.Fatalf("piece %d has no recording", p)
		}
		takes, err := takesOf(mix.file, 48000)
		if err != nil {
			t.Fatal(err)
		}
		if len(takes) != Takes || slices.Equal(takes[0], takes[1]) || slices.Equal(takes[1], takes[2]) {
			t.Errorf("%s: its %d takes are alike", mix.file, len(takes))
		}
		for _, s := range takes {
			top, sum := 0.0, 0.0
			for _, x := range s {
				top = max(top, math.Abs(float64(x)))
				sum += float64(x)
			}
			loud := slices.IndexFunc(s, func(x float32) bool { return math.Abs(float64(x)) > 0.02*top })
			if mix.file != "brush-sweep" && loud > 48*3 {
				t.Errorf("%s: begins after %.1f ms", mix.file, float64(loud)/48)
			}
			if top < 0.8 || top > 1.05 { // takes overshoot a little between samples
				t.Errorf("%s: its highest sample is %.2f", mix.file, top)
			}
			if end := math.Abs(float64(s[len(s)-1])); end > 1e-3 {
				t.Errorf("%s: ends at %g", mix.file, end)
			}
			if mean := sum / float64(len(s)); math.Abs(mean) > 2e-4 {
				t.Errorf("%s: has a mean of %g", mix.file, mean)
			}
		}
	}
}

// Other rates take as long, and decoding happens once.
func TestAKitIsTheSameAtEveryRate(t *testing.T) {
	var needed [Pieces]bool
	needed[Snare] = true
	for _, rate := range []int{22050, 44100, 96000} {
		kit, err := NewKit(needed, mixer.PlaceAt(0, 0, 0), rate)
		if err != nil {
			t.Fatal(err)
		}
		again, err := NewKit(needed, mixer.PlaceAt(0, 0, 0), rate)
		if err != nil {
			t.Fatal(err)
		}
		at := int(Snare) * Takes
		if &kit[at].Samples[0] != &again[at].Samples[0] {
			t.Errorf("at %d Hz the snare is decoded twice", rate)
		}
		whole, err := takesOf("snare", 48000)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := float64(len(kit[at].Samples))/float64(rate), float64(len(whole[0]))/48000; math.Abs(a-b) > 0.002 {
			t.Errorf("at %d Hz the snare lasts %.3f s, want %.3f", rate, a, b)
		}
		if len(kit[int(Kick)*Takes].Samples) != 0 {
			t.Error("a piece that is not needed is there")
		}
	}
}
