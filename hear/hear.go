package hear

import (
	"context"
	"errors"
	"io"
	"slices"

	"heddle/audio"
	"heddle/pitch"
)

// rate is what all listening works at, in samples a second: enough for the
// fourth harmonic of E6 and for the noise of a pick, a third of the work of
// 48 kHz.
const rate = 16000

// Silence and noise are no takes: a recording that never rises above
// silentDB, or none of whose notes is surer than chance gives.
const (
	silentDB = -60
	flushS   = 0.5
	surest   = 0.85
)

// Hear listens to a recording and returns the notes it holds, in order, and
// the guitar's tuning. It reads src to its end and keeps a second of sound. A
// recording of silence or of noise is a [*pitch.InputError].
func Hear(ctx context.Context, src *audio.Source, opts Options) ([]Heard, Tuning, error) {
	t := newTranscript(opts)
	re := audio.NewResampler(src.Rate, rate)
	block := make([]float32, 4096)
	var x []float32
	for {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		n, err := src.Read(block)
		x = re.Feed(x[:0], block[:n])
		t.ear.hear(x)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, 0, err
		}
	}
	t.ear.hear(re.Flush(x[:0]))
	t.ear.hear(make([]float32, int(flushS*rate)))
	heard := t.heard()
	if err := t.refuse(heard); err != nil {
		return nil, 0, err
	}
	return heard, t.ear.tuning.tuning(), nil
}

// refuse says why a recording without notes has none.
func (t *transcript) refuse(heard []Heard) error {
	switch {
	case t.ear.peakDB < silentDB:
		return &pitch.InputError{What: "recording", Value: "silence", Want: "a guitar that is louder than −60 dB of full scale"}
	case !slices.ContainsFunc(heard, func(h Heard) bool { return h.Confidence >= surest }):
		return &pitch.InputError{What: "recording", Value: "noise without notes", Want: "one guitar, recorded near enough to stand out from the noise"}
	}
	return nil
}
