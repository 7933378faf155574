package hear

import (
	"bytes"
	"context"
	"heddle/audio"
	"testing"

	"heddle/hear/internal/synthetic"
	"heddle/neck"
)

// tenSeconds is a clean line of plucked notes in sixteenths at 120.
func tenSeconds(rate int) []byte {
	keys := []int{77, 74, 72, 75, 73, 71, 74, 72, 70, 73, 71, 68}
	var notes []synthetic.Stroke
	for i := range 80 {
		notes = append(notes, synthetic.Stroke{OnS: 0.1 + 0.125*float64(i), Key: float64(keys[i%len(keys)] - 12*(i/40)), Level: 0.5})
	}
	return synthetic.WAV(synthetic.Pluck(notes, 10.5, rate), rate)
}

// BenchmarkHear reports how many times faster than playing it hears a
// recording, and what it allocates for each second of sound. The budget is
// 50 times real time from file to marks.
func BenchmarkHear(b *testing.B) {
	ex, _ := markedLine(60)
	var err error
	if ex.Instrument, err = neck.Named("guitar"); err != nil {
		b.Fatal(err)
	}
	for _, rate := range []int{44100, 48000, 192000} {
		file := tenSeconds(rate)
		b.Run(map[int]string{44100: "44100Hz", 48000: "48000Hz", 192000: "192000Hz"}[rate], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				src, err := audio.Decode(bytes.NewReader(file))
				if err != nil {
					b.Fatal(err)
				}
				if _, _, err := Hear(context.Background(), src, ex); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(10.5/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
		})
	}
}

// BenchmarkMark aligns and marks sixty notes.
func BenchmarkMark(b *testing.B) {
	ex, heard := markedLine(60)
	for b.Loop() {
		Mark(heard, 0, ex, TakeOptions{})
	}
}
