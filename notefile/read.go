package notefile

import (
	"bufio"
	"bytes"
	"io"
	"path"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/notefile/melody"
	"heddle/notefile/midi"
	"heddle/notefile/musicxml"
	"heddle/pitch"
)

// Limits of a file, in bytes. Text is read as it comes; packed scores and MIDI
// files are kept in memory. Both hold hours of music for a whole band.
const (
	maxBytes     = 16 << 20
	maxHeldBytes = 8 << 20
)

// Read reads a line from a Standard MIDI File, a MusicXML file, a compressed
// MusicXML file, or an exercise in our own JSON. The first bytes of the file tell which it is; name is the
// file's name, for errors and for a title if the file has none. The line is that of the
// part wanted, by name or number; if part is empty, of the one most like a melody.
func Read(name string, r io.Reader, part string) (melody.Import, error) {
	im, err := read(name, r, part)
	if err != nil {
		return melody.Import{}, err
	}
	if im.Title == "" {
		base := path.Base(strings.ReplaceAll(name, `\`, "/"))
		im.Title = strings.TrimSuffix(base, path.Ext(base))
	}
	return im, nil
}

func read(name string, r io.Reader, part string) (melody.Import, error) {
	text := bufio.NewReader(r)
	// An error, such as the end of a short file, comes again when reading on.
	head, _ := text.Peek(1024)
	switch {
	case bytes.HasPrefix(head, []byte("MThd")), bytes.HasPrefix(head, []byte("RIFF")):
		return readHeld(text, part, midi.Read)
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return readHeld(text, part, musicxml.ReadCompressed)
	case bytes.HasPrefix(bytes.TrimSpace(head), []byte("{")):
		return readHeld(text, part, func(content []byte, _ string) (melody.Import, error) {
			given, err := exercise.ParseLine(content)
			return melody.Import{Given: given}, err
		})
	case musicxml.Looks(head):
		return musicxml.Read(atMost(maxBytes, text), part)
	}
	if _, err := text.Peek(1); err != nil && err != io.EOF {
		return melody.Import{}, err
	}
	return melody.Import{}, &pitch.InputError{What: "file", Value: path.Base(name),
		Want: "a Standard MIDI File (.mid), MusicXML (.musicxml, .xml, .mxl) or the JSON of heddle line (.json)"}
}

// readHeld reads a file that must be held in memory.
func readHeld(r io.Reader, part string, read func([]byte, string) (melody.Import, error)) (melody.Import, error) {
	content, err := io.ReadAll(atMost(maxHeldBytes, r))
	if err != nil {
		return melody.Import{}, err
	}
	return read(content, part)
}

// atMost returns a reader of a file that may have so many bytes.
func atMost(bytes int, r io.Reader) io.Reader {
	return &melody.Limited{From: r, Left: bytes, Past: &pitch.InputError{What: "file", Value: "more than " + strconv.Itoa(bytes) + " bytes",
		Want: "at most " + strconv.Itoa(bytes>>20) + " MB"}}
}

// WriteMIDI writes an exercise as a Standard MIDI File; see [midi.Write].
func WriteMIDI(w io.Writer, ex *exercise.Exercise, band ...midi.Part) error {
	return midi.Write(w, ex, band...)
}

// WriteMusicXML writes an exercise as MusicXML 4.0; see [musicxml.Write].
func WriteMusicXML(w io.Writer, ex *exercise.Exercise) error { return musicxml.Write(w, ex) }
