package sound

import (
	"math"

	"heddle/audio"
	"heddle/sound/mixer"
)

// The mix's loudness.
const (
	targetLUFS = -16.0
	excerptS   = 20.0 // of the first pass, by which the gain is found
	mostGainDB = 60.0 // above it there is nothing but the room's own noise
	guardDB    = 4.5  // how much of the excerpt's highest peak the limiter may take
)

// A loudness measures the excerpt by which the mix's one gain is found.
type loudness struct {
	meter      *audio.Meter
	start, end int64
}

// newLoudness returns the measure of a form's first pass.
func newLoudness(f *form) *loudness {
	first := f.passes[0]
	start := round(first.start)
	return &loudness{audio.NewMeter(f.rate), start, min(round(first.end), start+int64(excerptS*float64(f.rate)))}
}

// hear takes in as much of a block as lies in the excerpt.
func (l *loudness) hear(b *mixer.Block) {
	n := int64(len(b.Left))
	from, to := max(0, l.start-b.From), min(n, l.end-b.From)
	if from < to {
		l.meter.Write(b.Left[from:to], b.Right[from:to])
	}
}

// gain is the factor that brings the excerpt up to −16 LUFS, but no further
// than the limiter can stand guard; 1 where there is nothing to hear.
func (l *loudness) gain() float64 {
	dB := min(targetLUFS-l.meter.Loudness(), audio.CeilingDB+guardDB-l.meter.TruePeak())
	if math.IsNaN(dB) || dB > mostGainDB {
		return 1
	}
	return math.Pow(10, dB/20)
}
