package audio

import (
	"bytes"
	"errors"
	"io"
)

// Samples decodes a whole recording, as one channel at a sample rate; at its
// own, which is returned, where the rate is 0.
func Samples(file []byte, rate int) ([]float32, int, error) {
	source, err := Decode(bytes.NewReader(file))
	if err != nil {
		return nil, 0, err
	}
	var resampler *Resampler
	if rate != 0 && rate != source.Rate {
		resampler = NewResampler(source.Rate, rate)
	} else {
		rate = source.Rate
	}
	var all []float32
	block := make([]float32, 8192)
	for {
		n, err := source.Read(block)
		if resampler != nil {
			all = resampler.Feed(all, block[:n])
		} else {
			all = append(all, block[:n]...)
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, 0, err
		}
		if err != nil {
			break
		}
	}
	if resampler != nil {
		all = resampler.Flush(all)
	}
	return all, rate, nil
}
