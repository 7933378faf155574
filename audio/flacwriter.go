package audio

import (
	"encoding/binary"
	"fmt"
	"io"
	"strconv"

	"heddle/pitch"
)

// A flacWriter writes a FLAC file (RFC 9639): blocks of 4096 samples, each
// channel predicted from the samples before by one of the fixed predictors
// (§9.2.5), the remainder in Rice codes (§9.2.7), left and right or their
// middle and side, whichever is smaller (§4.2). It never goes back, so it can
// write to a pipe; the checksum of the whole, known only at the end, is left
// out as §8.2 allows. Only a length that wasn't known at the start is filled in
// at the end, where the file allows it.
type flacWriter struct {
	w        io.Writer
	depth    Depth
	tags     Tags
	format   Format
	rateCode uint64
	written  int64 // frames
	number   uint64
	block    [2][]int32 // left, right
	middle   []int32
	side     []int32
	bits     bitWriter
	quantiser
}

// flacBlock is how many samples are in a block; the last may have fewer.
const flacBlock = 4096

// flacRates holds the codes of common sample rates (RFC 9639, table 15); any
// other rate is read from the head of the file.
var flacRates = map[int]uint64{8000: 4, 16000: 5, 22050: 6, 24000: 7, 32000: 8, 44100: 9, 48000: 10, 96000: 11, 192000: 3}

// flacFastest is the highest rate in Hz that a FLAC file can state.
const flacFastest = 1<<20 - 1

// NewFLAC returns a sink that writes a FLAC file of 16 or 24 bits. It takes a
// length of 0 for a sound whose end isn't known yet.
func NewFLAC(w io.Writer, depth Depth, t Tags) (Sink, error) {
	if depth != Bits16 && depth != Bits24 {
		return nil, &pitch.InputError{What: "bits", Value: strconv.Itoa(int(depth)), Want: "16 or 24 for FLAC"}
	}
	return &flacWriter{w: w, depth: depth, tags: t}, nil
}

// Start writes everything before the samples.
func (x *flacWriter) Start(f Format) error {
	if f.SampleRate < 1 || f.SampleRate > flacFastest {
		return &pitch.InputError{What: "sample rate", Value: strconv.Itoa(f.SampleRate), Want: fmt.Sprintf("1 to %d Hz for FLAC", flacFastest)}
	}
	x.format, x.rateCode, x.quantiser = f, flacRates[f.SampleRate], newQuantiser(x.depth, f.Recorded)
	for i := range f.channels() {
		x.block[i] = make([]int32, 0, flacBlock)
	}
	x.middle, x.side = make([]int32, flacBlock), make([]int32, flacBlock)

	comments := x.tags.vorbisComment()
	head := append([]byte("fLaC"), 0, 0, 0, 34)
	head = binary.BigEndian.AppendUint16(head, flacBlock)
	head = binary.BigEndian.AppendUint16(head, flacBlock)
	head = append(head, 0, 0, 0, 0, 0, 0) // sizes of frames, not known
	head = binary.BigEndian.AppendUint64(head, x.properties(f.Frames))
	head = append(head, make([]byte, 16)...)
	head = append(head, 0x84, byte(len(comments)>>16), byte(len(comments)>>8), byte(len(comments)))
	_, err := x.w.Write(append(head, comments...))
	return err
}

// properties are the rate, channels, depth and length of the stream as its
// head has them (§8.2).
func (x *flacWriter) properties(frames int64) uint64 {
	return uint64(x.format.SampleRate)<<44 | uint64(x.format.channels()-1)<<41 | uint64(x.depth-1)<<36 | uint64(frames)
}

// propertiesAt is where in the file the properties are: after the file's mark,
// the block's own head and four sizes.
const propertiesAt = 4 + 4 + 4 + 6

// Write takes frames and writes every block that is full.
func (x *flacWriter) Write(frames []float32) error {
	channels := x.format.channels()
	x.written += int64(len(frames) / channels)
	for len(frames) > 0 {
		n := channels * min(len(frames)/channels, flacBlock-len(x.block[0]))
		for i, s := range frames[:n] {
			c := i % channels
			x.block[c] = append(x.block[c], x.quantise(s))
		}
		frames = frames[n:]
		if len(x.block[0]) == flacBlock {
			if err := x.flush(); err != nil {
				return err
			}
		}
	}
	return nil
}

// Finish writes the last block, and the length where it wasn't known.
func (x *flacWriter) Finish() error {
	if len(x.block[0]) > 0 {
		if err := x.flush(); err != nil {
			return err
		}
	}
	if x.format.Frames > 0 {
		return checkLength(x.format.Frames - x.written)
	}
	if file, ok := x.w.(io.WriterAt); ok {
		_, err := file.WriteAt(binary.BigEndian.AppendUint64(nil, x.properties(x.written)), propertiesAt)
		return err
	}
	return nil
}

// flush writes one block as a frame (§9).
func (x *flacWriter) flush() error {
	x.bits.reset()
	if x.format.channels() == 1 {
		x.header(0, len(x.block[0]))
		x.subframe(x.block[0], uint(x.depth))
	} else {
		x.stereo(x.block[0], x.block[1])
	}
	x.bits.align()
	x.bits.bytes = binary.BigEndian.AppendUint16(x.bits.bytes, crc16(x.bits.bytes))
	x.block[0], x.block[1] = x.block[0][:0], x.block[1][:0]
	x.number++
	_, err := x.w.Write(x.bits.bytes)
	return err
}

// stereo writes two channels in the smallest of the four ways (§4.2).
func (x *flacWriter) stereo(left, right []int32) {
	middle, side := x.middle[:len(left)], x.side[:len(left)]
	for i, l := range left {
		middle[i], side[i] = (l+right[i])>>1, l-right[i]
	}
	channels, first, second := uint64(1), left, right
	firstWide, secondWide := uint(0), uint(0)
	l, r, m, s := roughness(left), roughness(right), roughness(middle), roughness(side)
	switch least := min(l+r, l+s, s+r, m+s); least {
	case l + r:
	case l + s:
		channels, second, secondWide = 8, side, 1
	case s + r:
		channels, first, firstWide = 9, side, 1
	default:
		channels, first, second, secondWide = 10, middle, side, 1
	}
	x.header(channels, len(left))
	x.subframe(first, uint(x.depth)+firstWide)
	x.subframe(second, uint(x.depth)+secondWide)
}

// roughness estimates what a channel will take: the sum of the sizes of its
// second differences.
func roughness(s []int32) uint64 {
	sum := uint64(0)
	for i := 2; i < len(s); i++ {
		d := s[i] - 2*s[i-1] + s[i-2]
		sum += uint64(max(d, -d))
	}
	return sum
}

// header writes a frame's header (§9.1).
func (x *flacWriter) header(channels uint64, n int) {
	size, depth := uint64(12), uint64(4)
	if n != flacBlock {
		size = 7 // given below in 16 bits
	}
	if x.depth == Bits24 {
		depth = 6
	}
	b := &x.bits
	b.put(0xfff8, 16)
	b.put(size<<12|x.rateCode<<8|channels<<4|depth<<1, 16)
	b.putUTF8(x.number)
	if size == 7 {
		b.put(uint64(n-1), 16)
	}
	b.align()
	b.put(uint64(crc8(b.bytes)), 8)
}

// mostOrder is the highest order of the fixed predictors.
const mostOrder = 4

// subframe writes one channel (§9.2).
func (x *flacWriter) subframe(s []int32, wide uint) {
	b := &x.bits
	if len(s) <= mostOrder { // too short to predict: as it is
		b.put(1<<1, 8)
		for _, v := range s {
			b.putSigned(v, wide)
		}
		return
	}
	order, residual := predict(s)
	b.put(uint64(8|order)<<1, 8)
	for _, v := range s[:order] {
		b.putSigned(v, wide)
	}
	b.putResidual(residual[order:], len(s), order)
}

// predict returns the order of the fixed predictor (§9.2.5, table 20) that
// leaves least over, and what it leaves.
func predict(s []int32) (order int, residual []int32) {
	best := ^uint64(0)
	d := append([]int32(nil), s...)
	for k := 0; k <= mostOrder; k++ {
		if k > 0 { // differences of the order before
			for i := len(d) - 1; i >= k; i-- {
				d[i] -= d[i-1]
			}
		}
		sum := uint64(0)
		for _, v := range d[mostOrder:] {
			sum += uint64(max(v, -v))
		}
		if sum < best {
			best, order = sum, k
			residual = append(residual[:0], d...)
		}
	}
	return order, residual
}
