package hear

import (
	"context"
	"errors"
	"io"
	"slices"

	"heddle/audio"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/spectral"
	"heddle/pitch"
)

// A recording that never rises above silentDB is silence. One in which no note
// has the confidence leastSure is noise, for chance gives less.
const (
	silentDB  = -60
	leastSure = 0.85
)

// Hear listens to a recording and returns its notes, in order, and how far the
// guitar is above A4 = 440 Hz, in cents from −50 to 50. It reads src to its end
// and keeps a second of sound. A recording of silence or of noise is a
// [*pitch.InputError].
func Hear(ctx context.Context, src *audio.Source, opts Options) (heard []Heard, tuningCents float64, err error) {
	l := listen.NewListener(opts.listen(false))
	re := audio.NewResampler(src.Rate, spectral.Rate)
	block := make([]float32, 4096)
	var x []float32
	for !errors.Is(err, io.EOF) {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		var n int
		if n, err = src.Read(block); err != nil && !errors.Is(err, io.EOF) {
			return nil, 0, err
		}
		x = re.Feed(x[:0], block[:n])
		l.Feed(x)
	}
	l.Feed(re.Flush(x[:0]))
	l.Finish()
	for _, n := range l.Transcription() {
		heard = append(heard, heardNote(n))
	}
	switch {
	case l.PeakDB() < silentDB:
		return nil, 0, &pitch.InputError{What: "recording", Value: "silence", Want: "a guitar that is louder than −60 dB of full scale"}
	case !slices.ContainsFunc(heard, func(h Heard) bool { return h.Confidence >= leastSure }):
		return nil, 0, &pitch.InputError{What: "recording", Value: "noise without notes", Want: "one guitar, recorded close enough to stand out from the noise"}
	}
	return heard, l.TuningCents(), nil
}
