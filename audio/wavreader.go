package audio

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"

	"heddle/pitch"
)

// Format tags of the WAVE fmt chunk (Microsoft and IBM, Multimedia
// Programming Interface 1.0, 1991; WAVEFORMATEXTENSIBLE, 2001).
const (
	wavPCM        = 1
	wavFloat      = 3
	wavExtensible = 0xFFFE
)

// Lengths that recorders write when they don't know the length yet.
const (
	wavOpenEnded = math.MaxUint32
	wavUnset     = 0
)

// The largest chunk that isn't sound which is skipped; anything larger is a
// broken length.
const wavLargestSkip = 64 << 20

// A wavFormat is what the fmt chunk says.
type wavFormat struct {
	tag, channels, bits int
	rate, frameBytes    int
}

func openWAV(r *bufio.Reader) (*Source, error) {
	if _, err := r.Discard(12); err != nil {
		return nil, truncated("WAV", 0)
	}
	var f wavFormat
	for {
		id, size, err := wavChunk(r)
		if err != nil {
			return nil, truncated("WAV", 0)
		}
		switch {
		case id == "fmt ":
			if f, err = readWAVFormat(r, size); err != nil {
				return nil, err
			}
		case id == "data" && f.tag == 0:
			return nil, notRecording("a WAV without a format")
		case id == "data":
			return f.source(r, size), nil
		case size > wavLargestSkip:
			return nil, notRecording("a WAV with a broken chunk")
		default:
			if _, err := r.Discard(int(size + size&1)); err != nil {
				return nil, truncated("WAV", 0)
			}
		}
	}
}

func wavChunk(r io.Reader) (id string, size int64, err error) {
	var head [8]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return "", 0, err
	}
	return string(head[:4]), int64(binary.LittleEndian.Uint32(head[4:])), nil
}

func readWAVFormat(r *bufio.Reader, size int64) (wavFormat, error) {
	if size < 16 || size > 1<<12 {
		return wavFormat{}, notRecording("a WAV with a broken format")
	}
	b := make([]byte, size+size&1)
	if _, err := io.ReadFull(r, b); err != nil {
		return wavFormat{}, truncated("WAV", 0)
	}
	le := binary.LittleEndian
	f := wavFormat{
		tag: int(le.Uint16(b)), channels: int(le.Uint16(b[2:])), rate: int(min(le.Uint32(b[4:]), math.MaxInt32)),
		frameBytes: int(le.Uint16(b[12:])), bits: int(le.Uint16(b[14:])),
	}
	if f.tag == wavExtensible && size >= 26 {
		f.tag = int(le.Uint16(b[24:]))
	}
	return f, f.check()
}

func (f wavFormat) check() error {
	pcm := f.tag == wavPCM && f.bits >= 8 && f.bits <= 32
	float := f.tag == wavFloat && (f.bits == 32 || f.bits == 64)
	if !pcm && !float {
		return &pitch.InputError{
			What: "recording", Value: fmt.Sprintf("WAV, format %d, %d bit", f.tag, f.bits),
			Want: "PCM of 8 to 32 bit or floats of 32 or 64 bit",
		}
	}
	if f.channels < 1 || f.channels > 2 {
		return &pitch.InputError{What: "recording", Value: fmt.Sprintf("WAV with %d channels", f.channels), Want: "one or two channels"}
	}
	if f.frameBytes != f.channels*f.sampleBytes() {
		return notRecording("a WAV with a broken format")
	}
	return nil
}

func (f wavFormat) sampleBytes() int { return (f.bits + 7) / 8 }

func (f wavFormat) String() string {
	if f.tag == wavFloat {
		return fmt.Sprintf("WAV, %d bit float", f.bits)
	}
	return fmt.Sprintf("WAV, %d bit", f.bits)
}

func (f wavFormat) source(r io.Reader, size int64) *Source {
	s := &Source{Rate: f.rate, Channels: f.channels, Format: f.String()}
	left := size / int64(f.frameBytes)
	openEnded := size == wavOpenEnded || size == wavUnset
	if !openEnded && f.rate > 0 {
		s.LengthS = float64(left) / float64(f.rate)
	}
	var raw []byte
	s.next = func(frames [][2]float32) (int, error) {
		if !openEnded && left < int64(len(frames)) {
			frames = frames[:left]
		}
		if len(frames) == 0 {
			return 0, io.EOF
		}
		if need := len(frames) * f.frameBytes; len(raw) < need {
			raw = make([]byte, need)
		}
		got, err := io.ReadFull(r, raw[:len(frames)*f.frameBytes])
		n := got / f.frameBytes
		f.read(frames[:n], raw)
		left -= int64(n)
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			if !openEnded {
				return n, truncated(s.Format, s.atS())
			}
			err = io.EOF
		}
		return n, err
	}
	return s
}

func (f wavFormat) read(frames [][2]float32, raw []byte) {
	width := f.sampleBytes()
	for i := range frames {
		at := raw[i*f.frameBytes:]
		for c := range f.channels {
			frames[i][c] = f.sample(at[c*width:])
		}
	}
}

// sample reads one sample; 8 bit are unsigned, wider ones signed, and widths
// between whole bytes sit at the top of their container.
func (f wavFormat) sample(b []byte) float32 {
	le := binary.LittleEndian
	switch {
	case f.tag == wavFloat && f.bits == 64:
		return float32(math.Float64frombits(le.Uint64(b)))
	case f.tag == wavFloat:
		return math.Float32frombits(le.Uint32(b))
	}
	switch f.sampleBytes() {
	case 1:
		return (float32(b[0]) - 128) / 128
	case 2:
		return float32(int16(le.Uint16(b))) / (1 << 15)
	case 3:
		return float32(int32(uint32(b[0])<<8|uint32(b[1])<<16|uint32(b[2])<<24)>>8) / (1 << 23)
	default:
		return float32(int32(le.Uint32(b))) / (1 << 31)
	}
}
