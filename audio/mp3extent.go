package audio

import (
	"bufio"
	"bytes"
	"encoding/binary"
)

// Three things come before the sound in an MP3 file: the encoder's delay, which
// a silent first frame states; that frame itself; and the decoder's own delay
// in samples (528 for the synthesis filter bank and the overlap, plus one).
// Players remove all of it, and so must a take that is marked to a click.
const mp3DecoderDelay = 529

// Where the first frame states it (the Xing and LAME tags, as LAME's technical
// notes describe them): after the header and the side information, whose size
// depends on MPEG version and channels, with optional fields in between.
const (
	mp3HeaderBytes = 4
	mp3TagBytes    = 256 // enough of a frame for its tag
	lameDelayAt    = 21  // bytes into the LAME tag
)

// mp3TagFields are the sizes of the Xing tag's optional fields, by flag.
var mp3TagFields = [...]int{4, 4, 100, 4} // frames, bytes, table of contents, quality

// An mp3Extent is where the sound lies in what the decoder gives, in samples.
// Zero means that the file doesn't say.
type mp3Extent struct {
	lead  int64 // before the sound
	whole int64 // of all frames that the file should have
}

// readMP3Extent reads the tag in the first frame.
func readMP3Extent(r *bufio.Reader) (e mp3Extent) {
	head, _ := r.Peek(mp3TagBytes)
	if len(head) < mp3TagBytes || head[0] != 0xFF || head[1]&0xE6 != 0xE2 {
		return e
	}
	side, frame := 32, int64(1152)
	mono, lowRate := head[3]>>6 == 3, head[1]&8 == 0
	switch {
	case mono && lowRate:
		side, frame = 9, 576
	case lowRate:
		side, frame = 17, 576
	case mono:
		side = 17
	}
	tag := head[mp3HeaderBytes+side:]
	if !bytes.HasPrefix(tag, []byte("Xing")) && !bytes.HasPrefix(tag, []byte("Info")) {
		return e
	}
	e.lead = frame
	flags := binary.BigEndian.Uint32(tag[4:])
	if flags&1 == 1 {
		e.whole = frame * (1 + int64(binary.BigEndian.Uint32(tag[8:])))
	}
	at := 8
	for i, size := range mp3TagFields {
		if flags>>i&1 == 1 {
			at += size
		}
	}
	if lame := tag[at:]; lame[0] != 0 {
		e.lead += int64(lame[lameDelayAt])<<4 + int64(lame[lameDelayAt+1])>>4 + mp3DecoderDelay
	}
	return e
}

// skipID3 passes over the ID3v2 tags at the front (id3.org, ID3v2.4 structure,
// section 3.1: a size of four bytes of seven bits, and perhaps a footer).
func skipID3(r *bufio.Reader) {
	for {
		head, err := r.Peek(10)
		if err != nil || !bytes.HasPrefix(head, []byte("ID3")) {
			return
		}
		size := 10
		for i, b := range head[6:10] {
			size += int(b&0x7F) << (7 * (3 - i))
		}
		if head[5]&0x10 != 0 {
			size += 10
		}
		if _, err := r.Discard(size); err != nil {
			return
		}
	}
}
