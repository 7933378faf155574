package midi

import (
	"encoding/binary"
	"errors"
	"fmt"

	"heddle/line"
	"heddle/notefile/melody"
)

// A midiFile is the content of a Standard MIDI File, in ticks.
type midiFile struct {
	Format   int
	Division int     // ticks to the quarter note, or 0
	PerSec   float64 // ticks to the second, with SMPTE division
	Tracks   []midiTrack
	Tempos   []midiChange[float64]
	Meters   []midiChange[line.Meter]
	Keys     []midiChange[int] // sharps, or flats below 0
	Markers  []midiChange[string]
	Texts    []string
	kept     melody.Counter // notes and marks in memory
	odd      int            // time signatures that no line can have
}

// A midiChange is a value from a tick on.
type midiChange[T any] struct {
	Tick int
	Is   T
}

// A midiTrack is one track.
type midiTrack struct {
	Name   string
	Notes  []midiNote
	Lyrics map[int]string
	Cues   map[int]string
	Shaped map[int]string // touches in words, from our own files
	Ends   int            // tick of the last event
	Open   int            // notes without an end
	Cut    bool           // it has no end of track
}

// A midiNote is a key held down.
type midiNote struct {
	Channel, Key int
	Start, End   int
}

// parseSMF reads a whole Standard MIDI File. Chunks of unknown kinds are
// skipped, as the standard asks. Every length is checked before it is used.
func parseSMF(content []byte) (*midiFile, error) {
	content, err := unwrapRIFF(content)
	if err != nil {
		return nil, err
	}
	kind, head, rest, err := cutChunk(content)
	if err != nil {
		return nil, err
	}
	if kind != "MThd" || len(head) < 6 {
		return nil, fmt.Errorf("the header is %q with %d bytes, want \"MThd\" with 6", kind, len(head))
	}
	f := &midiFile{Format: int(binary.BigEndian.Uint16(head))}
	if f.Format > 1 {
		return nil, fmt.Errorf("format %d, want 0 or 1", f.Format)
	}
	if err := f.setDivision(binary.BigEndian.Uint16(head[4:])); err != nil {
		return nil, err
	}
	want := int(binary.BigEndian.Uint16(head[2:]))
	for len(rest) > 0 && len(f.Tracks) < want {
		var body []byte
		if kind, body, rest, err = cutChunk(rest); err != nil {
			return nil, err
		}
		if kind != "MTrk" {
			continue
		}
		if err := f.parseTrack(body); err != nil {
			return nil, fmt.Errorf("track %d: %w", len(f.Tracks)+1, err)
		}
	}
	if len(f.Tracks) == 0 {
		return nil, errors.New("no track")
	}
	return f, nil
}

// unwrapRIFF takes a MIDI file out of the RIFF container (RMID) that some
// programs put around it.
func unwrapRIFF(content []byte) ([]byte, error) {
	if len(content) < 12 || string(content[:4]) != "RIFF" {
		return content, nil
	}
	if string(content[8:12]) != "RMID" {
		return nil, fmt.Errorf("a RIFF file of kind %q, want RMID", content[8:12])
	}
	for rest := content[12:]; len(rest) >= 8; {
		size := int64(binary.LittleEndian.Uint32(rest[4:]))
		if size > int64(len(rest)-8) {
			return nil, fmt.Errorf("chunk %q says %d bytes, %d are left", rest[:4], size, len(rest)-8)
		}
		if string(rest[:4]) == "data" {
			return rest[8 : 8+size], nil
		}
		rest = rest[min(int64(len(rest)), 8+size+size%2):]
	}
	return nil, errors.New("a RIFF file without a data chunk")
}

// cutChunk takes the first chunk off a file.
func cutChunk(content []byte) (kind string, body, rest []byte, err error) {
	if len(content) < 8 {
		return "", nil, nil, fmt.Errorf("%d bytes where a chunk header of 8 should be", len(content))
	}
	kind = string(content[:4])
	size := int64(binary.BigEndian.Uint32(content[4:]))
	if size > int64(len(content)-8) {
		return "", nil, nil, fmt.Errorf("chunk %q says %d bytes, %d are left", kind, size, len(content)-8)
	}
	return kind, content[8 : 8+size], content[8+size:], nil
}

// setDivision reads the division in the header: ticks per quarter note, or
// frames per second (negative) and ticks per frame.
func (f *midiFile) setDivision(division uint16) error {
	if division&0x8000 == 0 {
		f.Division = int(division)
		if f.Division == 0 {
			return fmt.Errorf("0 ticks to the quarter note, want at least 1")
		}
		return nil
	}
	frames, ticks := -int(int8(division>>8)), int(division&0xFF)
	rate := map[int]float64{24: 24, 25: 25, 29: 30000.0 / 1001, 30: 30}[frames]
	if rate == 0 || ticks == 0 {
		return fmt.Errorf("SMPTE division %d frames, %d ticks, want 24, 25, 29 or 30 frames", frames, ticks)
	}
	f.PerSec = rate * float64(ticks)
	return nil
}

// varLen reads a variable-length quantity of at most four bytes.
func varLen(b []byte) (n int, rest []byte, err error) {
	for i := 0; i < 4 && i < len(b); i++ {
		n = n<<7 | int(b[i]&0x7F)
		if b[i] < 0x80 {
			return n, b[i+1:], nil
		}
	}
	return 0, nil, errors.New("a variable-length quantity that does not end")
}
