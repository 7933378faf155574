package notefile

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/notefile/sheet"
)

// lineOf returns the notes of an exercise as an import would tell them.
func lineOf(ex *exercise.Exercise) []exercise.GivenNote {
	notes := make([]exercise.GivenNote, len(ex.Notes))
	for i, n := range ex.Notes {
		notes[i] = exercise.GivenNote{
			Note:      line.Note{Pitch: n.Pitch, Start: n.Start, Duration: n.Duration, Scale: line.Chromatic, Role: line.PatternRole},
			Fingering: n.Fingering,
			Touch:     n.Touch,
		}
	}
	return notes
}

// chordsOf returns the chords of an exercise as an import would tell them.
func chordsOf(ex *exercise.Exercise) []exercise.GivenChord {
	var chords []exercise.GivenChord
	for _, c := range ex.Chords {
		chords = append(chords, exercise.GivenChord{Start: c.Start, Symbol: c.Symbol})
	}
	return chords
}

func TestMusicXMLComesBackAsTheSameLine(t *testing.T) {
	for i, ex := range samples(t) {
		var out bytes.Buffer
		if err := WriteMusicXML(&out, ex); err != nil {
			t.Fatal(err)
		}
		got, err := Read("line.musicxml", &out, "")
		if err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		capital := strings.ToUpper(ex.Instrument.Name[:1]) + ex.Instrument.Name[1:]
		want := melody.Import{
			Part: capital, Parts: []string{capital}, Given: exercise.Given{Title: ex.Title(), Tempo: ex.Tempo,
				Rhythm: line.Rhythm{Meter: ex.Rhythm.Meter, Pickup: ex.Rhythm.Pickup, Swing: ex.Rhythm.Swing},
				Open:   ex.Instrument.Open, Capo: ex.Instrument.Capo, Notes: lineOf(ex), Chords: chordsOf(ex)},
		}
		// A legato stroke on the first note has nothing to come from and is
		// not written.
		if sheet.Legato(want.Notes[0].Stroke) {
			want.Notes[0].Stroke = ""
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s:\n%s", sampleName(i, ex), diff)
		}
	}
}

func TestMIDIComesBackAsTheSameLine(t *testing.T) {
	for i, ex := range samples(t) {
		got, err := Read("line.mid", bytes.NewReader(midiOf(t, ex)), "")
		if err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		want := melody.Import{
			Part: "Line", Parts: []string{"Line", "Chords"}, Given: exercise.Given{Title: ex.Title(), Tempo: ex.Tempo,
				Rhythm: line.Rhythm{Meter: ex.Rhythm.Meter, Pickup: ex.Rhythm.Pickup, Swing: ex.Rhythm.Swing},
				Notes:  lineOf(ex), Chords: chordsOf(ex)},
			Remarks: []string{`the line is that of part 1 of 2: 1 "Line", 2 "Chords"`},
		}
		// A line in triplets does not swing, whatever the feel.
		moved := func(n exercise.Note) bool {
			return ex.Rhythm.Sounding(n.Start) != n.Start || ex.Rhythm.Sounding(n.End()) != n.End()
		}
		if !slices.ContainsFunc(ex.Notes, moved) {
			want.Rhythm.Swing = line.Swing{}
		}
		want.Grouped = true
		for j, n := range ex.Notes {
			w := &want.Notes[j]
			w.Fingering = finger.Fingering{}
			w.Role = n.Role
			if j > 0 {
				w.Group = want.Notes[j-1].Group
				if n.Group != ex.Notes[j-1].Group || n.Role != ex.Notes[j-1].Role {
					w.Group++
				}
			}
			if n.Role == line.PatternRole {
				w.From = ex.Scales[n.Scale].Name()
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s:\n%s", sampleName(i, ex), diff)
		}
	}
}
