package hear

import (
	"bufio"
	"bytes"
	"fmt"

	"heddle/pitch"
)

// kbitMPEG2 are the bit rates of MPEG 2, layer III, by their index (ISO/IEC
// 13818-3, table in 2.4.2.3).
var kbitMPEG2 = [16]int{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160, 0}

// refuseGarbled refuses the MP3 files that the decoder turns into noise without
// a word: it takes a padded frame of MPEG 2 for one byte too short where the
// frame of MPEG 1 of the same rate would have an even number of bytes. Of the
// rates of MPEG 2 only 22050 Hz needs padding.
func refuseGarbled(r *bufio.Reader) error {
	const headerBytes, hz = 4, 22050
	head, err := r.Peek(headerBytes)
	if err != nil || !isMPEG2At22050(head) {
		return nil
	}
	// The first frame may only tell of the others, at a bit rate of its own.
	size := 72*1000*kbitMPEG2[head[2]>>4]/hz + int(head[2]>>1&1)
	if both, err := r.Peek(size + headerBytes); err == nil && isMPEG2At22050(both[size:]) {
		if bytes.Contains(both[:size], []byte("Xing")) {
			return nil // of a changing bit rate, which needs no padding
		}
		head = both[size:]
	}
	kbit := kbitMPEG2[head[2]>>4]
	if 144*1000*kbit/hz%2 == 1 {
		return nil
	}
	return &pitch.InputError{
		What: "recording", Value: fmt.Sprintf("an MP3 at %d Hz and %d kbit/s", hz, kbit),
		Want: "an MP3 at 44100 or 48000 Hz, or a WAV or FLAC file",
	}
}

func isMPEG2At22050(header []byte) bool {
	return header[0] == 0xFF && header[1]&0xFE|1 == 0xF3 && header[2]>>2&3 == 0
}
