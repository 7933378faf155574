package audio

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"strings"

	"heddle/audio/internal/mp3"
)

// The MP3 decoder always gives two channels of 16 bit.
const mp3FrameBytes = 4

func openMP3(r *bufio.Reader) (s *Source, err error) {
	defer func() {
		// The decoder uses values of a damaged file as indexes.
		if recover() != nil {
			s, err = nil, notRecording("an MP3 file that can't be read")
		}
	}()
	skipID3(r)
	extent := readMP3Extent(r)
	// The decoder reads a whole file that can seek just to know its length.
	decoder, err := mp3.NewDecoder(struct{ io.Reader }{r})
	if err != nil {
		return nil, notRecording("an MP3 file that can't be read: " + firstLine(err))
	}
	s = &Source{Rate: decoder.SampleRate(), Channels: 2, Format: "MP3"}
	s.LengthS = float64(max(0, extent.whole-extent.lead)) / float64(max(1, s.Rate))
	stream := &mp3Stream{decoder: decoder, extent: extent}
	s.next = func(frames [][2]float32) (int, error) {
		n, err := stream.read(frames)
		if err != nil && !errors.Is(err, io.EOF) {
			err = truncated(s.Format, s.atS())
		}
		return n, err
	}
	return s, nil
}

// An mp3Stream gives the sound that an MP3 file holds, without what the coder
// put before it.
type mp3Stream struct {
	decoder io.Reader
	extent  mp3Extent
	decoded int64 // samples
	raw     []byte
}

// read is like Read. It ends with [io.EOF] only after all the sound that the
// file states: what follows are tags of other programs.
func (m *mp3Stream) read(frames [][2]float32) (n int, err error) {
	defer func() {
		if recover() != nil {
			err = io.ErrUnexpectedEOF
		}
	}()
	if m.decoded < m.extent.lead {
		skipped, err := io.CopyN(io.Discard, m.decoder, (m.extent.lead-m.decoded)*mp3FrameBytes)
		m.decoded += skipped / mp3FrameBytes
		if err != nil {
			return 0, m.end(err)
		}
	}
	if need := len(frames) * mp3FrameBytes; len(m.raw) < need {
		m.raw = make([]byte, need)
	}
	got, err := io.ReadFull(m.decoder, m.raw[:len(frames)*mp3FrameBytes])
	n = got / mp3FrameBytes
	m.decoded += int64(n)
	for i := range n {
		b := m.raw[i*mp3FrameBytes:]
		frames[i][0] = float32(int16(binary.LittleEndian.Uint16(b))) / (1 << 15)
		frames[i][1] = float32(int16(binary.LittleEndian.Uint16(b[2:]))) / (1 << 15)
	}
	if err != nil {
		return n, m.end(err)
	}
	return n, nil
}

// mp3ShortBy is how many samples a whole file may lack of what it states: some
// encoders count the tag's frame too, and the last frame may be held back.
const mp3ShortBy = 2 * 1152

// end says whether an error of the decoder is the end of the sound.
func (m *mp3Stream) end(err error) error {
	ended := errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
	switch whole := m.decoded+mp3ShortBy >= m.extent.whole; {
	case whole && (ended || m.extent.whole > 0):
		return io.EOF
	case ended:
		return io.ErrUnexpectedEOF
	}
	return err
}

func firstLine(err error) string {
	line, _, _ := strings.Cut(err.Error(), "\n")
	return line
}
