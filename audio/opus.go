package audio

import (
	"io"

	"github.com/thesyncim/gopus"
	"github.com/thesyncim/gopus/container/ogg"
)

// An opusWriter writes an Ogg Opus file (RFC 7845): stereo at 96 kbit/s, in the
// middle of what RFC 7587, §3.1.1, recommends for music. Opus works at 48 kHz;
// other rates are resampled. The head states how many samples the codec adds
// before the sound, and the last page where the sound ends, so that it is
// decoded in place and at its exact length.
type opusWriter struct {
	w        io.Writer
	tags     Tags
	encoder  *gopus.Encoder
	channels []*Resampler
	ready    [][]float32 // of each channel, at 48 kHz, not yet encoded
	mixed    []float32   // one packet
	page     ogg.Page
	packets  int64
	left     int64 // frames to come, at the sound's own rate
	total    int64 // frames at 48 kHz
	preSkip  int64
}

const (
	opusRate     = 48000
	opusBits     = 96000               // a second
	opusPacket   = 960                 // frames: 20 ms
	opusPerPage  = 50                  // packets: a second
	opusLargest  = 4000                // bytes of a packet
	opusSegments = opusLargest/255 + 1 // of a page, which holds 255
)

// NewOpus returns a sink that writes an Ogg Opus file.
func NewOpus(w io.Writer, t Tags) (Sink, error) { return &opusWriter{w: w, tags: t}, nil }

// Start writes the two head pages.
func (x *opusWriter) Start(f Format) (err error) {
	n := f.channels()
	if x.encoder, err = gopus.NewEncoder(gopus.EncoderConfig{SampleRate: opusRate, Channels: n, Application: gopus.ApplicationAudio}); err != nil {
		return err
	}
	if err := x.encoder.SetBitrate(opusBits * n / 2); err != nil {
		return err
	}
	for range n {
		x.channels = append(x.channels, NewResampler(f.SampleRate, opusRate))
	}
	x.ready, x.mixed = make([][]float32, n), make([]float32, opusPacket*n)
	x.left, x.total = f.Frames, f.Frames*opusRate/int64(f.SampleRate)
	x.preSkip = int64(x.encoder.Lookahead())
	head := ogg.DefaultOpusHead(uint32(f.SampleRate), uint8(n))
	head.PreSkip = uint16(x.preSkip)
	if err := x.flush(ogg.PageFlagBOS, 0, head.Encode()); err != nil {
		return err
	}
	return x.flush(0, 0, append([]byte("OpusTags"), x.tags.vorbisComment()...))
}

func (x *opusWriter) flush(flags byte, granule int64, packet []byte) error {
	x.add(packet)
	x.page.HeaderType, x.page.GranulePos = flags, uint64(granule)
	_, err := x.w.Write(x.page.Encode())
	x.page = ogg.Page{PageSequence: x.page.PageSequence + 1}
	return err
}

func (x *opusWriter) add(packet []byte) {
	x.page.Segments = append(x.page.Segments, ogg.BuildSegmentTable(len(packet))...)
	x.page.Payload = append(x.page.Payload, packet...)
}

// Write takes frames and writes the packets that are full.
func (x *opusWriter) Write(frames []float32) error {
	n := len(x.channels)
	x.left -= int64(len(frames) / n)
	one := make([]float32, len(frames)/n)
	for c := range n {
		for i := range one {
			one[i] = frames[i*n+c]
		}
		x.ready[c] = x.channels[c].Feed(x.ready[c], one)
	}
	return x.encode()
}

// encode encodes what is ready, packet by packet.
func (x *opusWriter) encode() error {
	n := len(x.channels)
	for len(x.ready[0]) >= opusPacket {
		for c, samples := range x.ready {
			for i, s := range samples[:opusPacket] {
				x.mixed[i*n+c] = s
			}
			x.ready[c] = samples[:copy(samples, samples[opusPacket:])]
		}
		packet := make([]byte, opusLargest)
		size, err := x.encoder.Encode(x.mixed, packet)
		if err != nil {
			return err
		}
		if err := x.put(packet[:size]); err != nil {
			return err
		}
	}
	return nil
}

// put adds a packet; the last one, which reaches the sound's end, says where
// that is.
func (x *opusWriter) put(packet []byte) error {
	x.packets++
	at, end := x.packets*opusPacket, x.preSkip+x.total
	switch {
	case at >= end:
		if at-opusPacket >= end {
			return nil // silence after the end
		}
		return x.flush(ogg.PageFlagEOS, end, packet)
	case x.packets%opusPerPage == 0 || len(x.page.Segments)+2*opusSegments > 255:
		return x.flush(0, at, packet)
	}
	x.add(packet)
	return nil
}

// Finish writes what the codec still holds.
func (x *opusWriter) Finish() error {
	if err := checkLength(x.left); err != nil {
		return err
	}
	for c := range x.channels {
		x.ready[c] = x.channels[c].Flush(x.ready[c])
		x.ready[c] = append(x.ready[c], make([]float32, x.preSkip+2*opusPacket)...)
	}
	return x.encode()
}
