package audio

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
)

func openFLAC(r *bufio.Reader) (*Source, error) {
	stream, err := flac.New(r)
	if err != nil {
		return nil, notRecording("a FLAC file that can't be read: " + firstLine(err))
	}
	info := stream.Info
	s := &Source{
		Rate: int(info.SampleRate), Channels: int(info.NChannels),
		Format: fmt.Sprintf("FLAC, %d bit", info.BitsPerSample),
	}
	if s.Rate > 0 {
		s.LengthS = float64(info.NSamples) / float64(s.Rate)
	}
	d := &flacReader{stream: stream, source: s, scale: 1 / float32(int64(1)<<max(int(info.BitsPerSample)-1, 0)), promised: info.NSamples}
	s.next = d.read
	return s, nil
}

// A flacReader hands out the frames of a FLAC stream in pieces.
type flacReader struct {
	stream   *flac.Stream
	source   *Source
	frame    *frame.Frame
	used     int // samples of frame that are handed out
	scale    float32
	promised uint64 // samples by the header, 0 for unknown
}

func (d *flacReader) read(dst [][2]float32) (n int, err error) {
	defer func() {
		// The decoder uses values of a damaged file as indexes.
		if recover() != nil {
			err = truncated(d.source.Format, d.source.atS())
		}
	}()
	for d.frame == nil || d.used >= d.length() {
		next, err := d.stream.ParseNext()
		if err != nil {
			return 0, d.end(err)
		}
		d.frame, d.used = next, 0
	}
	if len(d.frame.Subframes) < d.source.Channels {
		return 0, truncated(d.source.Format, d.source.atS())
	}
	n = min(len(dst), d.length()-d.used)
	for c := range d.source.Channels {
		samples := d.frame.Subframes[c].Samples[d.used : d.used+n]
		for i, x := range samples {
			dst[i][c] = float32(x) * d.scale
		}
	}
	d.used += n
	return n, nil
}

func (d *flacReader) length() int {
	if len(d.frame.Subframes) == 0 {
		return 0
	}
	n := len(d.frame.Subframes[0].Samples)
	for _, s := range d.frame.Subframes[1:] {
		n = min(n, len(s.Samples))
	}
	return n
}

func (d *flacReader) end(err error) error {
	whole := d.promised == 0 || uint64(d.source.taken) >= d.promised
	if errors.Is(err, io.EOF) && whole {
		return io.EOF
	}
	return truncated(d.source.Format, d.source.atS())
}
