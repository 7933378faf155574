package hear

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"heddle/pitch"
)

// What a recording may be. The longest take is a limit on work; the rates are
// those of recorders in use, from telephone to studio.
const (
	LongestS  = 600.0
	LowestHz  = 8000
	HighestHz = 192000
)

const wantRecording = "a WAV, FLAC or MP3 recording of one guitar, at most ten minutes long"

// A Source is a recording being decoded: one channel of samples between −1
// and 1, read from the front to the back once. Two channels are mixed to one.
type Source struct {
	Rate     int     // samples a second
	Channels int     // as recorded, 1 or 2
	Format   string  // for people: "WAV, 24 bit"
	LengthS  float64 // as the file states it, 0 where it doesn't

	next  func(frames [][2]float32) (int, error) // like Read, in frames as recorded
	block [][2]float32
	taken int
	side  sidedness
}

// Decode recognises the recording by its first bytes, not by its name, and
// returns its samples as a stream. Its errors, and those of reading the
// Source, are each one line and of type [*pitch.InputError] unless r itself
// went wrong.
func Decode(r io.Reader) (*Source, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	head, err := in.Peek(12)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("recording: %w", err)
	}
	open := opener(head)
	if open == nil {
		return nil, notRecording(describe(head))
	}
	s, err := open(in)
	if err != nil {
		return nil, err
	}
	return s, s.check()
}

func opener(head []byte) func(*bufio.Reader) (*Source, error) {
	switch {
	case len(head) >= 12 && (bytes.HasPrefix(head, []byte("RIFF")) || bytes.HasPrefix(head, []byte("RF64"))) && string(head[8:12]) == "WAVE":
		return openWAV
	case bytes.HasPrefix(head, []byte("fLaC")):
		return openFLAC
	case bytes.HasPrefix(head, []byte("ID3")), len(head) > 2 && head[0] == 0xFF && head[1]&0xE6 == 0xE2:
		return openMP3
	}
	return nil
}

// describe names the kinds of file that people drop in by mistake.
func describe(head []byte) string {
	kinds := []struct{ magic, name string }{
		{"OggS", "an Ogg file"}, {"\x1aE\xdf\xa3", "a WebM or Matroska file"}, {"MThd", "a MIDI file"},
		{"FORM", "an AIFF file"}, {"RIFF", "a RIFF file without sound"}, {"%PDF", "a PDF file"},
		{"PK\x03\x04", "a ZIP file"}, {"\x89PNG", "a picture"}, {"\xff\xd8", "a picture"},
	}
	for _, k := range kinds {
		if bytes.HasPrefix(head, []byte(k.magic)) {
			return k.name
		}
	}
	switch {
	case len(head) >= 8 && string(head[4:8]) == "ftyp":
		return "an MP4 or M4A file"
	case len(head) == 0:
		return "an empty file"
	}
	return "an unknown kind of file"
}

func notRecording(value string) error {
	return &pitch.InputError{What: "recording", Value: value, Want: wantRecording}
}

func (s *Source) check() error {
	switch {
	case s.Rate < LowestHz || s.Rate > HighestHz:
		return &pitch.InputError{What: "recording", Value: fmt.Sprintf("%s at %d Hz", s.Format, s.Rate), Want: "a rate from 8000 to 192000 Hz"}
	case s.Channels < 1 || s.Channels > 2:
		return &pitch.InputError{What: "recording", Value: fmt.Sprintf("%s with %d channels", s.Format, s.Channels), Want: "one or two channels"}
	case s.LengthS > LongestS:
		return s.tooLong()
	}
	return nil
}

func (s *Source) tooLong() error {
	return &pitch.InputError{What: "recording", Value: fmt.Sprintf("%s longer than ten minutes", s.Format), Want: "at most ten minutes"}
}

func truncated(format string, atS float64) error {
	return &pitch.InputError{What: "recording", Value: fmt.Sprintf("%s that breaks off after %.1f s", format, atS), Want: "a whole file"}
}

// Read fills buf with samples and returns how many there were. At the end it
// returns [io.EOF]; a file that breaks off is an error and not an end.
func (s *Source) Read(buf []float32) (int, error) {
	if len(buf) == 0 {
		return 0, nil
	}
	if len(s.block) < len(buf) {
		s.block = make([][2]float32, len(buf))
	}
	n, err := s.next(s.block[:len(buf)])
	s.taken += n
	if float64(s.taken) > LongestS*float64(s.Rate) {
		return 0, s.tooLong()
	}
	s.side.mix(buf[:n], s.block[:n], s.Channels)
	return n, err
}

func (s *Source) atS() float64 { return float64(s.taken) / float64(s.Rate) }

// FromSamples returns one channel of samples, as a microphone gave them, as a
// Source.
func FromSamples(rate int, x []float32) (*Source, error) {
	s := &Source{Rate: rate, Channels: 1, Format: "samples", LengthS: float64(len(x)) / float64(max(rate, 1))}
	s.next = func(frames [][2]float32) (int, error) {
		if len(x) == 0 {
			return 0, io.EOF
		}
		n := min(len(x), len(frames))
		for i := range n {
			frames[i][0] = x[i]
		}
		x = x[n:]
		return n, nil
	}
	return s, s.check()
}
