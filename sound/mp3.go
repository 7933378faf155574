package sound

import (
	"encoding/binary"
	"io"
	"math"
	"strconv"

	shine "github.com/braheezy/shine-mp3/pkg/mp3"

	"heddle/pitch"
)

// An mp3Writer writes an MP3 file (ISO/IEC 11172-3 and 13818-3, layer III) of
// constant bit rate behind an ID3 tag. Before the sound stands the silent
// frame by which players know how many samples the codec has put before the
// first and after the last, and leave them out, so that a loop stays a loop.
type mp3Writer struct {
	w       io.Writer
	tags    Tags
	encoder *shine.Encoder
	frame   int // samples in one of the file's frames
	left    int64
	waiting []int16 // samples of a frame under way
	pad     int64   // samples of silence to add at the end
	dither  dice    // the same in every file
}

// An mp3Rate is what a sample rate is written with: 192 kbit/s, or half of
// it at half the rates. Kbit and index are those of the standard's table of
// bit rates, rateIndex and version of its frame header.
type mp3Rate struct {
	kbit, index        int64
	rateIndex, version byte
	frame              int
}

// mp3Rates holds the accepted rates.
var mp3Rates = map[int]mp3Rate{
	44100: {192, 11, 0, 3, 1152}, 48000: {192, 11, 1, 3, 1152}, 32000: {192, 11, 2, 3, 1152},
	22050: {96, 10, 0, 2, 576}, 24000: {96, 10, 1, 2, 576},
}

// The codec's delay in samples: what encoder and decoder together put before
// the first sample is 1057 (measured by correlation with ffmpeg's decoder), of
// which players reckon 529 to the decoder.
const (
	mp3Delay        = 528
	mp3DecoderDelay = 529
)

// mp3Gain makes up for the encoder, which gives back every sound 9/8 as large
// (measured: 1.12497 on a sine).
const mp3Gain = 8.0 / 9

// NewMP3 returns a sink that writes an MP3 file.
func NewMP3(w io.Writer, t Tags) (Sink, error) { return &mp3Writer{w: w, tags: t}, nil }

// Start writes the tag and the frame that tells of the delay.
func (x *mp3Writer) Start(f Format) error {
	rate, ok := mp3Rates[f.SampleRate]
	if !ok {
		return &pitch.InputError{What: "sample rate", Value: strconv.Itoa(f.SampleRate), Want: "22050, 24000, 32000, 44100 or 48000 for MP3"}
	}
	x.frame, x.left = rate.frame, f.Frames
	x.encoder = shine.NewEncoder(f.SampleRate, 2)
	m := &x.encoder.Mpeg
	m.Bitrate, m.BitrateIndex = rate.kbit, rate.index
	slots := float64(rate.frame) / float64(f.SampleRate) * float64(rate.kbit) * 1000 / 8
	m.WholeSlotsPerFrame = int64(slots)
	m.FracSlotsPerFrame = slots - math.Floor(slots)
	m.Slot_lag = -m.FracSlotsPerFrame
	m.Padding = 0

	n := int64(rate.frame)
	frames := (f.Frames + mp3Delay + mp3DecoderDelay + n - 1) / n
	x.pad = frames*n - f.Frames
	head := append(x.id3(), infoFrame(rate, int(m.WholeSlotsPerFrame), frames, mp3Delay, x.pad-mp3Delay)...)
	_, err := x.w.Write(head)
	return err
}

// id3 returns the ID3v2.4 tag: title and tempo.
func (x *mp3Writer) id3() []byte {
	var body []byte
	text := func(id, s string) {
		body = append(body, id...)
		body = append(body, synchsafe(len(s)+1)...)
		body = append(body, 0, 0, 3) // no flags; UTF-8
		body = append(body, s...)
	}
	if x.tags.Title != "" {
		text("TIT2", x.tags.Title)
	}
	if x.tags.Tempo > 0 {
		text("TBPM", strconv.Itoa(int(math.Round(x.tags.Tempo)))) // whole numbers only, by the standard
	}
	text("TSSE", maker)
	return append(append([]byte{'I', 'D', '3', 4, 0, 0}, synchsafe(len(body))...), body...)
}

// synchsafe writes a number in seven bits of each of four bytes.
func synchsafe(n int) []byte {
	return []byte{byte(n >> 21 & 0x7f), byte(n >> 14 & 0x7f), byte(n >> 7 & 0x7f), byte(n & 0x7f)}
}

// infoFrame returns a silent frame that holds how many frames follow and how
// many samples to leave out at both ends. The layout is the usual one, by the
// word "Info" where a frame's sound would begin; players look for the delays
// only behind an encoder's word that they know.
func infoFrame(r mp3Rate, size int, frames, delay, padding int64) []byte {
	frame := make([]byte, size)
	copy(frame, []byte{0xff, 0xe0 | r.version<<3 | 1<<1 | 1, byte(r.index)<<4 | r.rateIndex<<2, 0})
	at := 4 + 32
	if r.version != 3 {
		at = 4 + 17
	}
	body := append([]byte("Info"), 0, 0, 0, 1) // only the number of frames is given
	body = binary.BigEndian.AppendUint32(body, uint32(frames))
	body = append(body, "LAME heddl"[:9]...)
	body = append(body, make([]byte, 1+1+4+2+2+1+1)...) // quality, levels, flags: not told
	body = append(body, byte(delay>>4), byte(delay<<4)|byte(padding>>8), byte(padding))
	copy(frame[at:], body)
	return frame
}

// Write takes in frames.
func (x *mp3Writer) Write(frames []float32) error {
	x.left -= int64(len(frames) / 2)
	for _, s := range frames {
		x.waiting = append(x.waiting, int16(quantise(s*mp3Gain, 1<<15, x.dither.triangle())))
		if len(x.waiting) == 2*x.frame {
			if err := x.encode(); err != nil {
				return err
			}
		}
	}
	return nil
}

// encode encodes the frame that is full.
func (x *mp3Writer) encode() error {
	err := x.encoder.Write(x.w, x.waiting)
	x.waiting = x.waiting[:0]
	return err
}

// Finish writes what the codec still holds.
func (x *mp3Writer) Finish() error {
	for range x.pad {
		x.waiting = append(x.waiting, 0, 0)
		if len(x.waiting) == 2*x.frame {
			if err := x.encode(); err != nil {
				return err
			}
		}
	}
	return finished(x.left)
}
