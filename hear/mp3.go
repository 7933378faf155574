package hear

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"strings"

	"github.com/hajimehoshi/go-mp3"
)

// The MP3 decoder always gives two channels of 16 bit.
const mp3FrameBytes = 4

func openMP3(r *bufio.Reader) (s *Source, err error) {
	defer func() {
		// The decoder indexes by what a damaged file says.
		if recover() != nil {
			s, err = nil, notRecording("an MP3 file that can't be read")
		}
	}()
	lead := int64(mp3Lead(r))
	// The decoder reads a whole file that can seek just to know its length.
	decoder, err := mp3.NewDecoder(struct{ io.Reader }{r})
	if err != nil {
		return nil, notRecording("an MP3 file that can't be read: " + firstLine(err))
	}
	s = &Source{Rate: decoder.SampleRate(), Channels: 2, Format: "MP3"}
	var raw []byte
	s.next = func(frames [][2]float32) (n int, err error) {
		defer func() {
			if recover() != nil {
				err = truncated(s.Format, s.atS())
			}
		}()
		if _, err := io.CopyN(io.Discard, decoder, lead*mp3FrameBytes); err != nil && !errors.Is(err, io.EOF) {
			return 0, truncated(s.Format, s.atS())
		}
		lead = 0
		if need := len(frames) * mp3FrameBytes; len(raw) < need {
			raw = make([]byte, need)
		}
		got, err := io.ReadFull(decoder, raw[:len(frames)*mp3FrameBytes])
		n = got / mp3FrameBytes
		for i := range n {
			b := raw[i*mp3FrameBytes:]
			frames[i][0] = float32(int16(binary.LittleEndian.Uint16(b))) / (1 << 15)
			frames[i][1] = float32(int16(binary.LittleEndian.Uint16(b[2:]))) / (1 << 15)
		}
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
			return n, io.EOF
		case err != nil:
			return n, truncated(s.Format, s.atS())
		}
		return n, nil
	}
	return s, nil
}

func firstLine(err error) string {
	line, _, _ := strings.Cut(err.Error(), "\n")
	return line
}
