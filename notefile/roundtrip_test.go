package notefile

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
)

// lineOf returns the notes of an exercise as an import would tell them.
func lineOf(ex *exercise.Exercise) []Note {
	notes := make([]Note, len(ex.Notes))
	for i, n := range ex.Notes {
		notes[i] = Note{
			Note:      line.Note{Pitch: n.Pitch, Start: n.Start, Duration: n.Duration, Scale: line.Chromatic, Role: line.PatternRole},
			Fingering: n.Fingering,
		}
	}
	return notes
}

// chordsOf returns the chords of an exercise as an import would tell them.
func chordsOf(ex *exercise.Exercise) []ChordSymbol {
	var chords []ChordSymbol
	for _, c := range ex.Chords {
		chords = append(chords, ChordSymbol{c.Start, c.Symbol})
	}
	return chords
}

func TestMusicXMLComesBackAsTheSameLine(t *testing.T) {
	for i, ex := range samples(t) {
		var out bytes.Buffer
		if err := WriteMusicXML(&out, ex); err != nil {
			t.Fatal(err)
		}
		got, err := Read("line.musicxml", &out)
		if err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		want := Import{
			Title: titleOf(ex), Part: capital(ex.Instrument.Name), Parts: []string{capital(ex.Instrument.Name)}, Tempo: ex.Tempo,
			Meter: ex.Rhythm.Meter, Pickup: ex.Rhythm.Pickup, Swing: ex.Rhythm.Swing,
			Open: ex.Instrument.Open, Capo: ex.Instrument.Capo, Notes: lineOf(ex), Chords: chordsOf(ex),
		}
		// A legato stroke on the first note has nothing to come from and is
		// not written.
		if legato(want.Notes[0].Stroke) {
			want.Notes[0].Stroke = ""
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s:\n%s", sampleName(i, ex), diff)
		}
	}
}

func TestMIDIComesBackAsTheSameLine(t *testing.T) {
	for i, ex := range samples(t) {
		got, err := Read("line.mid", bytes.NewReader(midiOf(t, ex)))
		if err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		want := Import{
			Title: titleOf(ex), Part: lineTrack, Parts: []string{lineTrack, chordTrack}, Tempo: ex.Tempo,
			Meter: ex.Rhythm.Meter, Pickup: ex.Rhythm.Pickup, Swing: ex.Rhythm.Swing,
			Notes: lineOf(ex), Chords: chordsOf(ex),
			Remarks: []string{fmt.Sprintf("the line is that of %q, one of 2 parts", lineTrack)},
		}
		if bars, err := barsOf(ex); err != nil || !newSequence(ex, bars).swings() {
			want.Swing = line.Swing{}
		}
		for j := range want.Notes {
			want.Notes[j].Fingering = finger.Fingering{}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s:\n%s", sampleName(i, ex), diff)
		}
	}
}
