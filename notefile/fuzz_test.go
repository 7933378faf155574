package notefile

import (
	"bytes"
	"encoding/hex"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/notefile/melody"
	"heddle/notefile/midi"
	"heddle/notefile/musicxml"
	"heddle/notefile/sheet"
)

// exerciseOf makes an exercise of an imported line, as far as writing needs
// one.
func exerciseOf(im melody.Import) *exercise.Exercise {
	ex := &exercise.Exercise{Tempo: im.Tempo, Rhythm: im.Rhythm}
	ex.Instrument.Name = "line"
	if sheet.CheckTempo(ex.Tempo) != nil {
		ex.Tempo = 120
	}
	for i, n := range im.Notes {
		ex.Notes = append(ex.Notes, exercise.Note{Note: n.Note, Index: i})
	}
	return ex
}

// checkImport holds what is true of every import: notes that follow one
// another in a bounded time, in a metre that exists, and a line that can go
// out again and come back the same.
func checkImport(t *testing.T, im melody.Import) {
	if len(im.Notes) == 0 || im.Part == "" || im.Rhythm.Meter.Check() != nil || im.Rhythm.Pickup < 0 {
		t.Fatalf("%d notes of part %q in %s with a pickup of %s", len(im.Notes), im.Part, im.Rhythm.Meter, im.Rhythm.Pickup)
	}
	end := -im.Rhythm.Pickup
	for i, n := range im.Notes {
		if n.Start < end || n.Duration <= 0 || n.Pitch.MIDI() < 0 || n.Pitch.MIDI() > 127 {
			t.Fatalf("note %d of %s after %s: %s", i, n.Start, end, told(im.Notes[i:i+1]))
		}
		end = n.End()
	}
	for _, remark := range im.Remarks {
		if strings.ContainsAny(remark, "\n\r") {
			t.Fatalf("remark %q", remark)
		}
	}
	// A line of thousands of bars says no more and takes seconds.
	if end > 100*im.Rhythm.Meter.Bar() {
		return
	}
	var out bytes.Buffer
	if err := WriteMusicXML(&out, exerciseOf(im)); err != nil {
		t.Fatal(err)
	}
	again, err := Read("line.musicxml", &out, "")
	if err != nil {
		t.Fatal(err)
	}
	if told(again.Notes) != told(bare(im.Notes)) {
		t.Fatalf("went out as\n%s\ncame back as\n%s", told(bare(im.Notes)), told(again.Notes))
	}
}

// bare returns notes without what the hands do.
func bare(notes []exercise.GivenNote) []exercise.GivenNote {
	plain := make([]exercise.GivenNote, len(notes))
	for i, n := range notes {
		plain[i].Note = n.Note
	}
	return plain
}

// checkRead holds what is true of every answer of a reader.
func checkRead(t *testing.T, im melody.Import, err error) {
	if err == nil {
		checkImport(t, im)
	} else if strings.ContainsAny(err.Error(), "\n\r") {
		t.Fatalf("error %q", err)
	}
}

// Seeds are small, because the fuzzer minimises what it finds interesting and takes
// for ever over whole files. These are the events of one track.
func FuzzReadMIDI(f *testing.F) {
	for _, events := range []string{
		"00 90 4040 60 4000 00 4140 60 4100" + trackEnd,
		"00 ff5103 07a120 00 91 4040 8374 4000" + trackEnd,
		"00 ff5804 06032408 00 ff5902 fd00 00 90 4040 30 4000",
		"00 ff0501 43 00 90 3c40 60 3c00",
		"00 ff0109 7377696e6720323a31 00 90 4040 60 4000",
		"00 ff0602 416d 00 f001 00 00 90 4040 60 4000",
	} {
		f.Add(uint16(96), bytesOf(events))
	}
	f.Add(uint16(0xE728), bytesOf("00 91 4040 8374 4000"+trackEnd))
	f.Fuzz(func(t *testing.T, division uint16, events []byte) {
		im, err := midi.Read(midiBytes(0, division, hex.EncodeToString(events)), "")
		checkRead(t, im, err)
	})
}

// These seeds are fragments of a measure.
func FuzzReadMusicXML(f *testing.F) {
	const pitch = "<pitch><step>C</step><octave>4</octave></pitch>"
	for _, seed := range []string{
		"<note>" + pitch + "<duration>1</duration></note>",
		"<attributes><divisions>2</divisions></attributes><note><rest/><duration>1</duration></note>",
		"<attributes><time><beats>3+2</beats><beat-type>8</beat-type></time></attributes>",
		"<attributes><transpose><chromatic>-12</chromatic></transpose></attributes>",
		"<note><chord/>" + pitch + "<duration>1</duration><tie type='start'/></note>",
		"<note>" + pitch + "<duration>1</duration><notations><technical><string>2</string><fret>1</fret></technical></notations></note>",
		"<backup><duration>1</duration></backup><forward><duration>1</duration></forward>",
		"<direction><sound tempo='90'/></direction>",
		"<harmony><root><root-step>G</root-step></root><kind>minor</kind></harmony>",
		"</measure><measure implicit='yes'>",
	} {
		f.Add([]byte(seed))
	}
	note := "<note>" + pitch + "<duration>1</duration></note>"
	f.Fuzz(func(t *testing.T, measure []byte) {
		im, err := musicxml.Read(strings.NewReader("<score-partwise><part><measure>"+note+string(measure)+note+"</measure></part></score-partwise>"), "")
		checkRead(t, im, err)
	})
}

// Whole files, of any encoding, packed or not.
func FuzzRead(f *testing.F) {
	const score = "<score-partwise><part><measure><note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note></measure></part></score-partwise>"
	f.Add([]byte(score))
	f.Add([]byte("<?xml version='1.0' encoding='latin1'?>" + score))
	f.Add(utf16Of(score, true))
	f.Add(compressed(f, "line.xml", score))
	f.Fuzz(func(t *testing.T, content []byte) {
		im, err := Read("line", bytes.NewReader(content), "")
		checkRead(t, im, err)
	})
}
