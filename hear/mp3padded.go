package hear

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"math"

	"heddle/pitch"
)

// kbitMPEG2 are the bit rates of MPEG 2, layer III, by their index (ISO/IEC
// 13818-3, table in 2.4.2.3).
var kbitMPEG2 = [16]int{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160, 0}

// A reframer cuts the frames of an MP3 at 22050 Hz anew, without padding. The
// decoder takes a padded frame of MPEG 2 for one byte too short where the frame
// of MPEG 1 of the same rate would have an even number of bytes; it loses that
// byte, and what follows is noise. Of the rates of MPEG 2 only 22050 Hz needs
// padding.
//
// The sound of a frame may begin up to 255 bytes before it (ISO/IEC 11172-3,
// 2.4.2.7), so its bytes need not lie in the frame that they came in: each new
// frame has the bit rate that comes nearest to the old one's bytes, at which the
// next one's sound begins in reach. The highest bit rate leaves no choice, and is
// refused.
type reframer struct {
	r     *bufio.Reader
	ahead []mp3Frame
	sound []byte // that is in no new frame yet
	end   int    // in the file's sound, of the frames read
	given int    // bytes of the file's sound in new frames
	ended error
	out   []byte
}

// An mp3Frame is what stands before the sound in a frame, and where in the
// file's sound its own begins and its bytes end.
type mp3Frame struct {
	head       []byte
	start, end int
}

// mp3Reach is how far before its frame sound may begin.
const mp3Reach = 255

// topRate is the index of the highest bit rate.
const topRate byte = 14

var errReframe = errors.New("an MP3 frame has no room for its sound")

func isMPEG2At22050(header []byte) bool {
	return header[0] == 0xFF && header[1]&0xFE == 0xF2 && header[2]>>2&3 == 0
}

// mpeg2Bytes is the length of a frame at 22050 Hz without padding.
func mpeg2Bytes(rateIndex byte) int { return 72 * 1000 * kbitMPEG2[rateIndex] / 22050 }

// headBytes is the length of header, checksum and side information.
func headBytes(header []byte) int {
	if header[3]>>6 == 3 {
		return beginAt(header) + 9
	}
	return beginAt(header) + 17
}

func (f *reframer) Read(p []byte) (int, error) {
	for len(f.out) == 0 {
		if err := f.frame(); err != nil {
			return 0, err
		}
	}
	n := copy(p, f.out)
	f.out = f.out[n:]
	return n, nil
}

// unpadded is a file as the decoder reads it rightly.
func unpadded(r *bufio.Reader) (io.Reader, error) {
	const two = 2 * (72*160000/22050 + 1) // the first frame may only tell of the others
	head, _ := r.Peek(two + 4)
	if len(head) < 4 || !isMPEG2At22050(head) {
		return r, nil
	}
	second := mpeg2Bytes(head[2]>>4) + int(head[2]>>1&1)
	if second+4 <= len(head) && isMPEG2At22050(head[second:]) && head[second+2]>>4 == topRate && !bytes.Contains(head[:second], []byte("Xing")) {
		return nil, &pitch.InputError{
			What: "recording", Value: "an MP3 at 22050 Hz and 160 kbit/s",
			Want: "an MP3 of another rate, or a WAV or FLAC file",
		}
	}
	return &reframer{r: r}, nil
}

// readFrame reads the file's next frame, past what is none.
func (f *reframer) readFrame() error {
	header, err := f.r.Peek(4)
	size, head := 0, 1
	for ; err == nil; header, err = f.r.Peek(4) {
		if isMPEG2At22050(header) {
			size, head = mpeg2Bytes(header[2]>>4)+int(header[2]>>1&1), headBytes(header)
		}
		if size >= head {
			break
		}
		f.r.Discard(1) // which was peeked at
	}
	if err != nil {
		return err
	}
	whole := make([]byte, size)
	if _, err := io.ReadFull(f.r, whole); err != nil {
		return err
	}
	start := f.end - int(whole[beginAt(whole)])
	f.sound = append(f.sound, whole[head:]...)
	f.end += size - head
	f.ahead = append(f.ahead, mp3Frame{whole[:head:head], start, f.end})
	return nil
}

// beginAt is where a frame says how far before it its sound begins.
func beginAt(header []byte) int {
	if header[1]&1 == 0 {
		return 6
	}
	return 4
}

// frame makes the next new frame.
func (f *reframer) frame() error {
	for f.ended == nil && (len(f.ahead) < 2 || len(f.sound) < mpeg2Bytes(topRate)) {
		f.ended = f.readFrame()
	}
	if len(f.ahead) == 0 {
		return f.ended
	}
	this, next := f.ahead[0], f.end
	if len(f.ahead) > 1 {
		next = f.ahead[1].start
	}
	head, back := this.head, f.given-this.start
	rateIndex, off := byte(0), math.MaxInt
	for k := byte(1); k <= topRate; k++ {
		end := f.given + mpeg2Bytes(k) - len(head)
		if d := max(end-this.end, this.end-end); end >= max(f.given, next) && end <= next+mp3Reach && d < off {
			rateIndex, off = k, d
		}
	}
	if rateIndex == 0 || back > mp3Reach {
		return errReframe
	}
	head[2] = head[2]&0x0D | rateIndex<<4
	head[beginAt(head)] = byte(max(0, back))
	n := mpeg2Bytes(rateIndex) - len(head)
	f.sound = append(f.sound, make([]byte, max(0, n-len(f.sound)))...)
	f.out = append(append(f.out[:0], head...), f.sound[:n]...)
	f.sound = f.sound[n:]
	f.given += n
	f.ahead = f.ahead[1:]
	return nil
}
