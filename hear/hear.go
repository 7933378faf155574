package hear

import (
	"context"
	"errors"
	"io"
)

// Hear listens to a recording.
func Hear(ctx context.Context, src *Source, opts Options) ([]Heard, Tuning, error) {
	t := newTranscript(opts)
	re := newResampler(src.Rate)
	block := make([]float32, 4096)
	var x []float32
	for {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		n, err := src.Read(block)
		x = re.feed(x[:0], block[:n])
		t.ear.hear(x)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, 0, err
		}
	}
	t.ear.hear(re.flush(x[:0]))
	t.ear.hear(make([]float32, rate/4))
	return t.heard(), t.ear.tuning.tuning(), nil
}
