package audio

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
	"strconv"

	"heddle/pitch"
)

// A wavWriter writes a RIFF WAVE file (Microsoft and IBM 1991; WAVEFORMATEX
// for floats). Its INFO list comes before the samples, so that the file can be
// written to a pipe.
type wavWriter struct {
	w     io.Writer
	depth Depth
	tags  Tags
	left  int64 // frames still to come
	width int   // channels
	odd   bool  // the samples take an odd number of bytes
	bytes []byte
	quantiser
}

// NewWAV returns a sink that writes a WAV file.
func NewWAV(w io.Writer, depth Depth, t Tags) (Sink, error) {
	if depth != Bits16 && depth != Bits24 && depth != Float32 {
		return nil, &pitch.InputError{What: "bits", Value: strconv.Itoa(int(depth)), Want: "16, 24 or 32f"}
	}
	return &wavWriter{w: w, depth: depth, tags: t}, nil
}

var errTooLong = errors.New("sound too long for a WAV file, which holds at most 4 GiB")

// Start writes everything before the samples.
func (x *wavWriter) Start(f Format) error {
	x.width, x.left, x.quantiser = f.channels(), f.Frames, newQuantiser(x.depth, f.Recorded)
	frame := int64(x.width) * int64(x.depth/8)
	kind := uint16(wavPCM)
	var fact []byte
	if x.depth == Float32 {
		kind = wavFloat // asks for a fact chunk
		fact = chunk("fact", binary.LittleEndian.AppendUint32(nil, uint32(f.Frames)))
	}
	info, data := x.info(), frame*f.Frames
	x.odd = data%2 == 1
	size := 4 + 8 + 16 + int64(len(fact)) + 8 + int64(len(info)) + 8 + data + data&1
	if size > math.MaxUint32 {
		return errTooLong
	}
	form := binary.LittleEndian.AppendUint16(nil, kind)
	form = binary.LittleEndian.AppendUint16(form, uint16(x.width))
	form = binary.LittleEndian.AppendUint32(form, uint32(f.SampleRate))
	form = binary.LittleEndian.AppendUint32(form, uint32(int64(f.SampleRate)*frame))
	form = binary.LittleEndian.AppendUint16(form, uint16(frame))
	form = binary.LittleEndian.AppendUint16(form, uint16(x.depth))

	head := binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(size))
	head = append(head, "WAVE"...)
	head = append(head, chunk("fmt ", form)...)
	head = append(head, fact...)
	head = append(head, chunk("LIST", info)...)
	head = append(head, "data"...)
	_, err := x.w.Write(binary.LittleEndian.AppendUint32(head, uint32(data)))
	return err
}

// info returns the body of the INFO list: the title, the tempo as a comment
// (RIFF has no field for it) and what wrote the file.
func (x *wavWriter) info() []byte {
	body := []byte("INFO")
	if x.tags.Title != "" {
		body = append(body, chunk("INAM", append([]byte(x.tags.Title), 0))...)
	}
	if x.tags.Tempo > 0 {
		body = append(body, chunk("ICMT", append([]byte("tempo "+strconv.FormatFloat(x.tags.Tempo, 'g', -1, 64)+" quarter notes a minute"), 0))...)
	}
	return append(body, chunk("ISFT", append([]byte(writer), 0))...)
}

func chunk(id string, body []byte) []byte {
	c := binary.LittleEndian.AppendUint32([]byte(id), uint32(len(body)))
	c = append(c, body...)
	if len(body)%2 == 1 {
		c = append(c, 0)
	}
	return c
}

// Write writes frames.
func (x *wavWriter) Write(frames []float32) error {
	x.bytes = x.bytes[:0]
	for _, s := range frames {
		switch x.depth {
		case Float32:
			x.bytes = binary.LittleEndian.AppendUint32(x.bytes, math.Float32bits(s))
		case Bits24:
			v := x.quantise(s)
			x.bytes = append(x.bytes, byte(v), byte(v>>8), byte(v>>16))
		default:
			x.bytes = binary.LittleEndian.AppendUint16(x.bytes, uint16(x.quantise(s)))
		}
	}
	x.left -= int64(len(frames) / x.width)
	_, err := x.w.Write(x.bytes)
	return err
}

// Finish checks that the file holds what its header says, and pads it to even
// length as RIFF asks: one channel of 24 bits may be odd.
func (x *wavWriter) Finish() error {
	if err := checkLength(x.left); err != nil || !x.odd {
		return err
	}
	_, err := x.w.Write([]byte{0})
	return err
}
