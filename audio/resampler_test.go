package audio

import (
	"fmt"
	"math"
	"testing"
)

const rate = 16000

// A sine keeps its frequency, its level and its place in time at any rate,
// and one above the new band is gone.
func TestResamplingKeepsSinesInPlace(t *testing.T) {
	for _, from := range []int{8000, 11025, 16000, 22050, 32000, 44100, 44099, 48000, 96000, 192000} {
		t.Run(fmt.Sprint(from), func(t *testing.T) {
			const hz, seconds = 441.0, 2
			r := NewResampler(from, rate)
			var out []float32
			block := make([]float32, 0, 777)
			for i := range seconds * from {
				block = append(block, float32(math.Sin(2*math.Pi*hz*float64(i)/float64(from))))
				if len(block) == cap(block) {
					out = r.Feed(out, block)
					block = block[:0]
				}
			}
			out = r.Flush(r.Feed(out, block))
			if got := len(out) - seconds*rate; got < -20 || got > 20 {
				t.Errorf("%d samples too many", got)
			}
			worst := 0.0
			for i := rate / 2; i < seconds*rate-rate/2; i++ {
				want := math.Sin(2 * math.Pi * hz * float64(i) / rate)
				worst = max(worst, math.Abs(float64(out[i])-want))
			}
			if worst > 0.003 {
				t.Errorf("off by %.4f", worst)
			}
		})
	}
}

func TestResamplingLeavesNoImages(t *testing.T) {
	r := NewResampler(48000, rate)
	x := make([]float32, 48000)
	for i := range x {
		x[i] = float32(math.Sin(2 * math.Pi * 10000 * float64(i) / 48000))
	}
	out := r.Feed(nil, x)
	if level := decibels(out[rate/4 : rate*3/4]); level > -60 {
		t.Errorf("10 kHz comes through at %.0f dB", level)
	}
}
