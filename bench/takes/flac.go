package takes

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"math"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
	"github.com/mewkiz/flac/meta"

	"heddle/hear"
)

// A recording is kept as the microphone gave it, in one channel at its own
// rate; sound's encoder is for what the program plays, in stereo at the rates
// of its players. What has 16 bits keeps every one of them.
const (
	flacBits  = 16
	flacFull  = 1 << (flacBits - 1)
	flacBlock = 4096 // samples
)

// writeFLAC writes a source to its end and returns how many samples it had.
// The head, with the length and the checksum of the whole, is written last.
func writeFLAC(w *diskFile, source *hear.Source) (int64, error) {
	packed := bufferedSeeker{bufio.NewWriterSize(w, 64<<10), w}
	out, err := flac.NewEncoder(packed, &meta.StreamInfo{
		BlockSizeMin: flacBlock, BlockSizeMax: flacBlock, SampleRate: uint32(source.Rate), NChannels: 1, BitsPerSample: flacBits,
	})
	if err != nil {
		return 0, err
	}
	samples := make([]float32, flacBlock)
	whole := int64(0)
	for {
		n, err := fill(source, samples)
		if n > 0 {
			whole += int64(n)
			if err := out.WriteFrame(flacFrame(samples[:n], source.Rate)); err != nil {
				return whole, err
			}
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return whole, err
		}
	}
	return whole, errors.Join(out.Close(), packed.Flush(), sayBlocks(w))
}

// sayBlocks writes into the head that all blocks have one size. The last one,
// which may be shorter, does not count (RFC 9639, section 8.2); the encoder
// counts it, and readers refuse a file with less than 16 samples there.
func sayBlocks(w *diskFile) error {
	const after = 8 // the bytes of the file's mark and of the block's own head
	size := binary.BigEndian.AppendUint16(nil, flacBlock)
	_, err := w.WriteAt(append(size, size...), after)
	return err
}

// fill reads a whole block, or what is left.
func fill(source *hear.Source, block []float32) (n int, err error) {
	for n < len(block) && err == nil {
		var read int
		read, err = source.Read(block[n:])
		n += read
	}
	return n, err
}

// flacFrame is a block of samples; how it is best predicted is the encoder's
// to find.
func flacFrame(samples []float32, rate int) *frame.Frame {
	whole := make([]int32, len(samples))
	for i, x := range samples {
		whole[i] = int32(max(-flacFull, min(flacFull-1, math.Round(float64(x)*flacFull))))
	}
	return &frame.Frame{
		Header: frame.Header{
			HasFixedBlockSize: true, BlockSize: uint16(len(samples)), SampleRate: uint32(rate),
			Channels: frame.ChannelsMono, BitsPerSample: flacBits,
		},
		Subframes: []*frame.Subframe{{SubHeader: frame.SubHeader{Pred: frame.PredVerbatim}, Samples: whole, NSamples: len(whole)}},
	}
}

// A bufferedSeeker writes in large pieces and can still go back.
type bufferedSeeker struct {
	*bufio.Writer
	file *diskFile
}

// Seek goes to a place, once all before is written.
func (b bufferedSeeker) Seek(offset int64, whence int) (int64, error) {
	if err := b.Flush(); err != nil {
		return 0, err
	}
	return b.file.Seek(offset, whence)
}
