package notefile

import (
	"bytes"
	"encoding/hex"
	"strconv"
	"testing"

	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"heddle/exercise"
	"heddle/notefile/sheet"
)

// midiOf writes an exercise.
func midiOf(t testing.TB, ex *exercise.Exercise) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := WriteMIDI(&out, ex); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A gomidi note is a note as gomidi (v2.3.16) reads it.
type gomidiNote struct {
	channel, key, velocity uint8
	start, end             int64
}

// gomidiNotes returns the notes of a track in the order they begin.
func gomidiNotes(track smf.Track) []gomidiNote {
	var notes []gomidiNote
	open := map[[2]uint8]int{}
	now := int64(0)
	for _, event := range track {
		now += int64(event.Delta)
		var channel, key, velocity uint8
		message := midi.Message(event.Message)
		switch {
		case message.GetNoteStart(&channel, &key, &velocity):
			open[[2]uint8{channel, key}] = len(notes)
			notes = append(notes, gomidiNote{channel, key, velocity, now, -1})
		case message.GetNoteEnd(&channel, &key):
			notes[open[[2]uint8{channel, key}]].end = now
		}
	}
	return notes
}

func TestGomidiReadsTheSameNotes(t *testing.T) {
	for i, ex := range samples(t) {
		file, err := smf.ReadFrom(bytes.NewReader(midiOf(t, ex)))
		if err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		if file.Format() != 1 || file.TimeFormat != smf.MetricTicks(960) || len(file.Tracks) != 3 {
			t.Fatalf("%s: format %d, %v, %d tracks", sampleName(i, ex), file.Format(), file.TimeFormat, len(file.Tracks))
		}
		var metres []string
		origin, now := int64(0), int64(0)
		for _, event := range file.Tracks[0] {
			now += int64(event.Delta)
			var beats, unit, clocks, thirtyseconds uint8
			if event.Message.GetMetaTimeSig(&beats, &unit, &clocks, &thirtyseconds) {
				origin, metres = now, append(metres, strconv.Itoa(int(beats))+"/"+strconv.Itoa(int(unit)))
			}
		}
		if last := metres[len(metres)-1]; last != ex.Rhythm.Meter.String() {
			t.Errorf("%s: metre %s", sampleName(i, ex), last)
		}
		notes := gomidiNotes(file.Tracks[1])
		if len(notes) != len(ex.Notes) {
			t.Fatalf("%s: %d notes, want %d", sampleName(i, ex), len(notes), len(ex.Notes))
		}
		for j, n := range ex.Notes {
			want := gomidiNote{0, uint8(n.Pitch.MIDI()), 88, int64(ex.Rhythm.Sounding(n.Start)) + origin, int64(ex.Rhythm.Sounding(n.End())) + origin}
			opens := j == 0 || n.Group != ex.Notes[j-1].Group || n.Role != ex.Notes[j-1].Role
			switch {
			case n.Touch.Ghost:
				want.velocity = 36
			case n.Touch.Accent:
				want.velocity = 120
			case sheet.Legato(n.Stroke):
				want.velocity = 72
			case opens:
				want.velocity = 104
			}
			if n.Touch.Staccato {
				want.end = want.start + (want.end-want.start)/2
			}
			if notes[j] != want {
				t.Fatalf("%s: note %d is %+v, want %+v", sampleName(i, ex), j, notes[j], want)
			}
		}
	}
}

// The whole file of one short line, byte for byte, beside what each byte is.
func TestMIDIBytes(t *testing.T) {
	ex := built(t, exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Fret: 10, Tempo: 120, Bars: 1, Value: "quarter"})
	got := midiOf(t, ex)
	for _, part := range []struct{ what, bytes string }{
		{"header: format 1, three tracks, 960 ticks", "4d546864 00000006 0001 0003 03c0"},
		{"tempo", "00ff5103 07a120"},
		{"metre", "00ff5804 04021808"},
		{"chord marker", "00ff0603 476d37"},
		{"program 27, clean guitar", "00c01b"},
		{"F5 (77) picked for 960 ticks, its name before it", "00ff050146 00904d68 8740804d00"},
		{"end of a track", "00ff2f00"},
	} {
		want, err := hex.DecodeString(string(bytes.ReplaceAll([]byte(part.bytes), []byte(" "), nil)))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(got, want) {
			t.Errorf("%s: % x is not in\n% x", part.what, want, got)
		}
	}
}

func TestSameExerciseSameBytes(t *testing.T) {
	ex := built(t, workedExample())
	for i := 0; i < 3; i++ {
		again := built(t, workedExample())
		for _, write := range writers {
			var one, two bytes.Buffer
			if err := write.write(&one, ex); err != nil {
				t.Fatal(err)
			}
			if err := write.write(&two, again); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(one.Bytes(), two.Bytes()) {
				t.Errorf("%s differs between two writings", write.name)
			}
		}
	}
}
