package audio

import (
	"encoding/binary"
	"errors"
	"strconv"
)

// A Format describes the sound that a [Sink] is about to receive.
type Format struct {
	SampleRate int   // Hz
	Channels   int   // 1 or 2; 0 for 2
	Frames     int64 // one sample of each channel each; 0 for an unknown length, which only FLAC accepts

	// Recorded sound already has whole steps of its own bit depth and is rounded
	// without dither. Computed sound is dithered when it is rounded to 16 bits.
	Recorded bool
}

func (f Format) channels() int {
	if f.Channels == 0 {
		return 2
	}
	return f.Channels
}

// A Sink receives sound. Call Start once, first; then Write with samples in
// −1…1, the channels of a frame interleaved; then Finish, once all of
// Format.Frames have been written. Write does not keep its slice. After an error
// call none of them again. A sink that is also an io.Closer, because it holds a
// process, must always be closed.
type Sink interface {
	Start(Format) error
	Write(frames []float32) error
	Finish() error
}

// Tags describe a sound file for people and players.
type Tags struct {
	Title string
	Tempo float64 // quarter notes a minute; 0 for none
}

// vorbisComment is the comment header that FLAC (RFC 9639, §8.6) and Opus
// (RFC 7845, §5.2) share.
func (t Tags) vorbisComment() []byte {
	var fields []string
	if t.Title != "" {
		fields = append(fields, "TITLE="+t.Title)
	}
	if t.Tempo > 0 {
		fields = append(fields, "BPM="+strconv.FormatFloat(t.Tempo, 'g', -1, 64))
	}
	c := append(binary.LittleEndian.AppendUint32(nil, uint32(len(writer))), writer...)
	c = binary.LittleEndian.AppendUint32(c, uint32(len(fields)))
	for _, f := range fields {
		c = append(binary.LittleEndian.AppendUint32(c, uint32(len(f))), f...)
	}
	return c
}

// writer is what files state as the program that wrote them.
const writer = "heddle"

// errLength reports that a sink got too few or too many frames.
var errLength = errors.New("sound ended before or after the length it began with")

// checkLength refuses a sound that is shorter or longer than was announced.
func checkLength(left int64) error {
	if left != 0 {
		return errLength
	}
	return nil
}
