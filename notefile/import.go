package notefile

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"

	"heddle/finger"
	"heddle/line"
	"heddle/pitch"
)

// An Import is one melodic line brought from a file of another program.
type Import struct {
	Title   string
	Part    string        // the part, track or channel the line was taken from
	Parts   []string      // every one that holds notes, in the file's order
	Tempo   float64       // quarter notes a minute; 0 where the file says none
	Meter   line.Meter    // 4/4 where the file says none
	Pickup  line.Beat     // how long before the first bar line the line begins
	Swing   line.Swing    // straight where the file says none
	Open    []pitch.Pitch // tuning without the capo, string 1 first, where the file says it
	Capo    int
	Notes   []Note // one after another, never overlapping
	Chords  []ChordSymbol
	Remarks []string // what was left out, changed or chosen, one sentence each
}

// A Note is one note of an imported line. Its groups and scales are not known:
// Scale is line.Chromatic, Group and Step are 0, Role is the pattern's. String
// is 0 where the file tells no place on the neck, Finger 0 where it tells no
// finger (or the string is open), and Stroke is empty where it tells none.
type Note struct {
	line.Note
	finger.Fingering
}

// A ChordSymbol is a chord as the file writes it, and where it begins.
type ChordSymbol struct {
	Start  line.Beat
	Symbol string
}

// Limits of what is read. A file of MaxFileBytes holds hours of music for a
// whole band; a part of maxNotes holds a day of sixteenths. Reading keeps no
// more in memory than a small multiple of these.
const (
	MaxFileBytes = 16 << 20
	MaxXMLBytes  = 32 << 20
	maxNotes     = 200_000
	maxRemarks   = 30
)

// Read reads a line from a file of any kind that is read: a Standard MIDI
// File, MusicXML, or compressed MusicXML. What the file is is told by its
// first bytes; name is its name, for the error and for want of a title.
func Read(name string, r io.Reader) (Import, error) {
	content, err := readAll(r)
	if err != nil {
		return Import{}, err
	}
	var im Import
	switch {
	case bytes.HasPrefix(content, []byte("MThd")), bytes.HasPrefix(content, []byte("RIFF")):
		im, err = importMIDI(content)
	case bytes.HasPrefix(content, []byte("PK\x03\x04")):
		im, err = importCompressed(content)
	case looksLikeXML(content):
		im, err = importXML(bytes.NewReader(content))
	default:
		err = &pitch.InputError{What: "file", Value: path.Base(name), Want: "a Standard MIDI File (.mid) or MusicXML (.musicxml, .xml, .mxl)"}
	}
	if err != nil {
		return Import{}, err
	}
	if im.Title == "" {
		base := path.Base(strings.ReplaceAll(name, `\`, "/"))
		im.Title = strings.TrimSuffix(base, path.Ext(base))
	}
	return im, nil
}

// ReadMIDI reads a line from a Standard MIDI File of format 0 or 1.
//
// Names are taken from lyrics that name every note, as [WriteMIDI] writes
// them; else keys are spelled by the file's key signature, or, where there is
// none, by the key that fits the notes best. Onsets off every usual division
// of the beat are moved to the nearest one. Whole bars of silence before the
// line are left out.
func ReadMIDI(r io.Reader) (Import, error) {
	content, err := readAll(r)
	if err != nil {
		return Import{}, err
	}
	return importMIDI(content)
}

// ReadMusicXML reads a line from MusicXML, part-wise or time-wise, compressed
// or not.
func ReadMusicXML(r io.Reader) (Import, error) {
	content, err := readAll(r)
	if err != nil {
		return Import{}, err
	}
	if bytes.HasPrefix(content, []byte("PK\x03\x04")) {
		return importCompressed(content)
	}
	return importXML(bytes.NewReader(content))
}

// readAll reads a whole file, no longer than MaxFileBytes.
func readAll(r io.Reader) ([]byte, error) {
	content, err := io.ReadAll(io.LimitReader(r, MaxFileBytes+1))
	if err != nil {
		return nil, err
	}
	if len(content) > MaxFileBytes {
		return nil, &pitch.InputError{What: "file", Value: fmt.Sprintf("more than %d bytes", MaxFileBytes),
			Want: fmt.Sprintf("at most %d MB", MaxFileBytes>>20)}
	}
	return content, nil
}

// remark adds a sentence to what is said about an import. A file with endless
// oddities does not get endless remarks.
func (im *Import) remark(format string, arguments ...any) {
	switch len(im.Remarks) {
	case maxRemarks:
		im.Remarks = append(im.Remarks, "and more of the kind")
	default:
		if len(im.Remarks) < maxRemarks {
			im.Remarks = append(im.Remarks, fmt.Sprintf(format, arguments...))
		}
	}
}

// count writes a number of things: "1 grace note", "3 grace notes".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
