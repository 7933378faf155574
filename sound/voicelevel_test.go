package sound

import (
	"math"
	"testing"

	"heddle/audio/audiotest"
	"heddle/sound/dsp"
)

// speechBand keeps what speech is understood by: 500 to 4000 Hz holds most of
// the weight of intelligibility (ANSI S3.5-1997, table 3).
func speechBand(s []float32, rate float64) []float32 {
	banded := append([]float32(nil), s...)
	for range 2 {
		dsp.HighPass(500, 0.7, rate).Filter(banded)
		dsp.LowPass(4000, 0.7, rate).Filter(banded)
	}
	return banded
}

// maskedAt is how far below noise in its own band a sound is just masked
// (Fastl and Zwicker 2007, §4.1; from memory).
const maskedAt = -4

// While names are spoken, they are on average at least 3 dB above where the rest
// of the mix would mask them, in the band by which speech is understood, in
// every groove.
func TestNamesStandAboveTheMix(t *testing.T) {
	vamps := []Vamp{FunkVamp, SwingVamp}
	if !testing.Short() {
		vamps = Vamps()
	}
	for _, vamp := range vamps {
		o := DefaultOptions()
		o.Vamp, o.Voice, o.SampleRate = vamp, true, 24000
		ex := gMinorVamp(t)
		var voice, rest []float32
		var line Timeline
		for _, p := range Parts() {
			b := &audiotest.Buffer{}
			var err error
			line, err = RenderPart(t.Context(), ex, o, p, b)
			must(t, err)
			banded := speechBand(b.Left(), 24000)
			switch {
			case p == Voice:
				voice = banded
			case rest == nil:
				rest = banded
			default:
				for i, x := range banded {
					rest[i] += x
				}
			}
		}
		if len(line.Names) < 8 {
			t.Fatalf("%s: only %d names are spoken", vamp, len(line.Names))
		}
		sum := 0.0
		for _, n := range line.Names {
			sum += 10*math.Log10(energy(voice[n.Start:n.End])/energy(rest[n.Start:n.End])) - maskedAt
		}
		mean := sum / float64(len(line.Names))
		t.Logf("%s: names are %.1f dB above being masked", vamp, mean)
		if mean < 3 {
			t.Errorf("%s: names are %.1f dB above being masked, want 3", vamp, mean)
		}
	}
}
