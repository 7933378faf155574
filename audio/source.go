package audio

import (
	"bufio"
	"bytes"
	"context"
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

// Decode recognises a WAV, FLAC or MP3 recording by its first bytes, not by
// its name, and returns its samples as a stream. Its errors, and those of
// reading the Source, are each one line and of type [*pitch.InputError] unless
// r itself went wrong.
func Decode(r io.Reader) (*Source, error) {
	return decode(r, func(kind foreign, _ io.Reader) (*Source, error) { return nil, notRecording(kind.name) })
}

// DecodeAny also reads, through ffmpeg, what phones and browsers record: M4A,
// Ogg, Opus and WebM. When the context is done, ffmpeg is stopped.
func DecodeAny(ctx context.Context, r io.Reader) (*Source, error) {
	return decode(r, func(kind foreign, head io.Reader) (*Source, error) { return openFFmpeg(ctx, kind, r, head) })
}

func decode(r io.Reader, other func(kind foreign, in io.Reader) (*Source, error)) (*Source, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	head, err := in.Peek(12)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("recording: %w", err)
	}
	var s *Source
	if open := opener(head); open != nil {
		s, err = open(in)
	} else if kind := kindOf(head); kind.demuxer != "" {
		s, err = other(kind, in)
	} else {
		err = notRecording(kind.name)
	}
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

// A foreign is a kind of file that isn't read here.
type foreign struct {
	name    string
	demuxer string // of ffmpeg, for those that hold sound
}

// kindOf says what kind of file begins with a head that no reader here knows.
func kindOf(head []byte) foreign {
	for _, k := range []struct {
		magic string
		foreign
	}{
		{"OggS", foreign{"an Ogg file", "ogg"}}, {"\x1aE\xdf\xa3", foreign{"a WebM or Matroska file", "matroska"}},
		{"FORM", foreign{"an AIFF file", "aiff"}}, {"MThd", foreign{name: "a MIDI file"}},
		{"RIFF", foreign{name: "a RIFF file without sound"}}, {"%PDF", foreign{name: "a PDF file"}},
		{"PK\x03\x04", foreign{name: "a ZIP file"}}, {"\x89PNG", foreign{name: "a picture"}}, {"\xff\xd8", foreign{name: "a picture"}},
	} {
		if bytes.HasPrefix(head, []byte(k.magic)) {
			return k.foreign
		}
	}
	switch {
	case len(head) >= 8 && string(head[4:8]) == "ftyp":
		return foreign{"an MP4 or M4A file", "mov"}
	case len(head) == 0:
		return foreign{name: "an empty file"}
	}
	return foreign{name: "an unknown kind of file"}
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

// Copy writes a source to its end into a sink, in one channel and without
// dither, and returns how many samples it had. The length need not be known:
// the sink must take one that isn't. Errors of the source come as they are.
func Copy(sink Sink, s *Source) (samples int64, err error) {
	if err := sink.Start(Format{SampleRate: s.Rate, Channels: 1, Recorded: true}); err != nil {
		return 0, err
	}
	block := make([]float32, 4096)
	for {
		n, err := s.Read(block)
		samples += int64(n)
		if werr := sink.Write(block[:n]); werr != nil {
			return samples, werr
		}
		if errors.Is(err, io.EOF) {
			return samples, sink.Finish()
		}
		if err != nil {
			return samples, err
		}
	}
}
