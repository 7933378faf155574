package sound

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
	"strconv"

	"heddle/pitch"
)

// A Depth is how a WAV file holds samples.
type Depth int

// The depths.
const (
	Bits16  Depth = 16
	Bits24  Depth = 24
	Float32 Depth = 32 // IEEE 754 numbers, −1…1
)

// ParseDepth reads a depth: 16, 24 or 32f.
func ParseDepth(s string) (Depth, error) {
	i, err := choose("bits", s, []string{"16", "24", "32f"})
	if err != nil {
		return 0, err
	}
	return []Depth{Bits16, Bits24, Float32}[i], nil
}

// A wavWriter writes a RIFF WAVE file (Microsoft and IBM 1991; WAVEFORMATEX
// for floats) with its INFO list before the samples, so that it can be
// written to a pipe.
type wavWriter struct {
	w      io.Writer
	depth  Depth
	tags   Tags
	left   int64 // frames still to come
	bytes  []byte
	dither dice // the same in every file
}

// NewWAV returns a sink that writes a WAV file.
func NewWAV(w io.Writer, depth Depth, t Tags) (Sink, error) {
	if depth != Bits16 && depth != Bits24 && depth != Float32 {
		return nil, &pitch.InputError{What: "bits", Value: strconv.Itoa(int(depth)), Want: "16, 24 or 32f"}
	}
	return &wavWriter{w: w, depth: depth, tags: t}, nil
}

// errTooLong is what a file whose sizes do not fit its header says.
var errTooLong = errors.New("sound too long for a WAV file, which holds at most 4 GiB")

// Start writes everything before the samples.
func (x *wavWriter) Start(f Format) error {
	frame := int64(2 * x.depth / 8)
	data := frame * f.Frames
	info := x.info()
	size := 4 + 8 + 16 + 8 + int64(len(info)) + 8 + data
	kind := uint16(1) // PCM
	var fact []byte
	if x.depth == Float32 {
		kind = 3 // IEEE float, which asks for a fact chunk
		fact = chunk("fact", binary.LittleEndian.AppendUint32(nil, uint32(f.Frames)))
		size += int64(len(fact))
	}
	if size > math.MaxUint32 {
		return errTooLong
	}
	var form []byte
	form = binary.LittleEndian.AppendUint16(form, kind)
	form = binary.LittleEndian.AppendUint16(form, 2)
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
	head = binary.LittleEndian.AppendUint32(head, uint32(data))
	x.left = f.Frames
	_, err := x.w.Write(head)
	return err
}

// info returns the body of the INFO list: title, tempo as a comment (RIFF has
// no field for it) and what wrote the file.
func (x *wavWriter) info() []byte {
	body := []byte("INFO")
	if x.tags.Title != "" {
		body = append(body, chunk("INAM", append([]byte(x.tags.Title), 0))...)
	}
	if x.tags.Tempo > 0 {
		body = append(body, chunk("ICMT", append([]byte(tempoText(x.tags.Tempo)), 0))...)
	}
	return append(body, chunk("ISFT", append([]byte(maker), 0))...)
}

// maker is what files say wrote them.
const maker = "heddle"

// tempoText writes a tempo for readers.
func tempoText(t float64) string { return "tempo " + number(t) + " quarter notes a minute" }

// chunk returns a RIFF chunk, padded to even length.
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
	switch x.depth {
	case Float32:
		for _, s := range frames {
			x.bytes = binary.LittleEndian.AppendUint32(x.bytes, math.Float32bits(s))
		}
	case Bits24:
		for _, s := range frames {
			v := quantise(s, 1<<23, 0)
			x.bytes = append(x.bytes, byte(v), byte(v>>8), byte(v>>16))
		}
	default:
		for _, s := range frames {
			v := quantise(s, 1<<15, x.dither.triangle())
			x.bytes = append(x.bytes, byte(v), byte(v>>8))
		}
	}
	x.left -= int64(len(frames) / 2)
	_, err := x.w.Write(x.bytes)
	return err
}

// Finish checks that the file holds what its header says. Frames of every
// depth come in pairs of samples, so the data is of even length as RIFF asks.
func (x *wavWriter) Finish() error { return finished(x.left) }

// errShort is what a sink says that got too few or too many frames.
var errShort = errors.New("sound ended before or after the length it began with")

// finished checks that no frames are left to come.
func finished(left int64) error {
	if left != 0 {
		return errShort
	}
	return nil
}

// quantise turns a sample into a whole number of steps of 1/full, with a
// dither in steps, and clips what is over full scale.
func quantise(s float32, full int32, dither float32) int32 {
	v := float64(s)*float64(full) + float64(dither)
	return int32(math.Floor(min(max(v, -float64(full)), float64(full-1)) + 0.5))
}

// triangle returns dither of triangular shape, two steps wide, which makes
// the error of rounding to 16 bits independent of the sound (Lipshitz,
// Wannamaker and Vanderkooy 1992).
func (d *dice) triangle() float32 {
	x := d.next()
	return float32(int32(x)>>1+int32(x>>32)>>1) * (1.0 / (1 << 31))
}
