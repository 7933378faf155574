package notefile

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
)

// exerciseOf makes an exercise of an imported line, as far as writing needs
// one.
func exerciseOf(im Import) *exercise.Exercise {
	ex := &exercise.Exercise{Tempo: im.Tempo, Rhythm: line.Rhythm{Meter: im.Meter, Pickup: im.Pickup}}
	ex.Instrument.Name = "line"
	if ex.Tempo < slowestTempo || ex.Tempo > fastestTempo {
		ex.Tempo = defaultTempo
	}
	for i, n := range im.Notes {
		ex.Notes = append(ex.Notes, exercise.Note{Note: n.Note, Index: i})
	}
	return ex
}

// checkImport holds what is true of every import: notes that follow one
// another in a bounded time, in a metre that exists, and a line that can go
// out again and come back the same.
func checkImport(t *testing.T, im Import) {
	if len(im.Notes) == 0 || im.Part == "" || im.Meter.Check() != nil || im.Pickup < 0 {
		t.Fatalf("%d notes of part %q in %s with a pickup of %s", len(im.Notes), im.Part, im.Meter, im.Pickup)
	}
	end := -im.Pickup
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
	if end > 100*im.Meter.Bar() {
		return
	}
	var out bytes.Buffer
	if err := WriteMusicXML(&out, exerciseOf(im)); err != nil {
		t.Fatal(err)
	}
	again, err := ReadMusicXML(&out)
	if err != nil {
		t.Fatal(err)
	}
	if told(again.Notes) != told(bare(im.Notes)) {
		t.Fatalf("went out as\n%s\ncame back as\n%s", told(bare(im.Notes)), told(again.Notes))
	}
}

// bare returns notes without what the hands do.
func bare(notes []Note) []Note {
	plain := make([]Note, len(notes))
	for i, n := range notes {
		plain[i].Note = n.Note
	}
	return plain
}

func FuzzReadMIDI(f *testing.F) {
	s := workedExample()
	s.Bars = 1
	f.Add(midiOf(f, built(f, s)))
	f.Add(midiBytes(0, 96, "00 90 4040 60 4000 00 4140 60 4100"+trackEnd))
	f.Add(midiBytes(1, 0xE728, "00 ff5103 07a120"+trackEnd, "00 91 4040 8374 4000"+trackEnd))
	f.Add(midiBytes(0, 480, "00 ff5804 06032408 00 ff5902 fd00 00 90 4040 10 4540 30 4000 8100 4500"))
	f.Fuzz(func(t *testing.T, content []byte) {
		if im, err := ReadMIDI(bytes.NewReader(content)); err == nil {
			checkImport(t, im)
		} else if strings.ContainsAny(err.Error(), "\n\r") {
			t.Fatalf("error %q", err)
		}
	})
}

func FuzzReadMusicXML(f *testing.F) {
	var out bytes.Buffer
	s := workedExample()
	s.Bars = 1
	if err := WriteMusicXML(&out, built(f, s)); err != nil {
		f.Fatal(err)
	}
	f.Add(out.Bytes())
	fixtures, err := filepath.Glob("testdata/import/*.musicxml")
	if err != nil || len(fixtures) == 0 {
		f.Fatalf("%d fixtures, %v", len(fixtures), err)
	}
	for _, name := range fixtures {
		content, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(content)
	}
	f.Add(compressed(f, "line.xml", musicXML(quarterNotes(1, "C4"))))
	f.Fuzz(func(t *testing.T, content []byte) {
		if im, err := ReadMusicXML(bytes.NewReader(content)); err == nil {
			checkImport(t, im)
		} else if strings.ContainsAny(err.Error(), "\n\r") {
			t.Fatalf("error %q", err)
		}
	})
}
