package deliver

import (
	"bytes"
	"slices"
	"testing"

	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile"
)

// writtenMIDI writes an exercise as the choices of a query say.
func writtenMIDI(t *testing.T, ex *exercise.Exercise, query string) []byte {
	t.Helper()
	choices, err := chosen(t, query)
	if err != nil {
		t.Fatal(err)
	}
	format, err := ForFile("line.mid")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := format.Write(t.Context(), &out, ex, choices, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A struckKey is a key going down, as gomidi (v2.3.16) reads it.
type struckKey struct {
	tick         int64
	channel, key uint8
}

// tracksOf returns what is struck in each track, by its name, and the markers.
func tracksOf(t *testing.T, file []byte) (struck map[string][]struckKey, markers map[string]int64) {
	t.Helper()
	read, err := smf.ReadFrom(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	struck, markers = map[string][]struckKey{}, map[string]int64{}
	for _, track := range read.Tracks {
		name, now, held := "", int64(0), map[uint8]int{}
		for _, event := range track {
			now += int64(event.Delta)
			var text string
			var channel, key, velocity uint8
			if event.Message.GetMetaTrackName(&text) {
				name = text
			}
			if event.Message.GetMetaMarker(&text) {
				markers[text] = now
			}
			message := midi.Message(event.Message)
			switch {
			case message.GetNoteStart(&channel, &key, &velocity):
				held[key]++
				struck[name] = append(struck[name], struckKey{now, channel, key})
			case message.GetNoteEnd(&channel, &key):
				held[key]--
			}
		}
		for key, n := range held {
			if n != 0 {
				t.Errorf("%s: key %d is left held", name, key)
			}
		}
	}
	return struck, markers
}

// The file has the band of the vamp that is heard: a bass in its range, whose first
// note is the chord's bass note on beat 1, and drums on keys of General MIDI (35 to
// 81) in every bar. Muted parts are left out.
func TestMIDIHasTheBandOfTheVamp(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10})
	if err != nil {
		t.Fatal(err)
	}
	bar := int64(ex.Rhythm.Meter.Bar())
	for _, vamp := range []string{"funk", "swing", "ballad"} {
		struck, markers := tracksOf(t, writtenMIDI(t, ex, "vamp="+vamp))
		bass, drums := struck["Bass"], struck["Drums"]
		if len(bass) == 0 || len(drums) == 0 {
			t.Fatalf("%s: %d bass notes, %d drum strokes", vamp, len(bass), len(drums))
		}
		if first := bass[0]; first.tick > int64(line.Quarter/16) || first.key%12 != 7 {
			t.Errorf("%s: the bass begins on key %d at tick %d, want a G on beat 1", vamp, first.key, first.tick)
		}
		bars := map[int64]bool{}
		for _, k := range drums {
			bars[k.tick/bar] = true
			if k.channel != 9 || k.key < 35 || k.key > 81 {
				t.Fatalf("%s: a drum on channel %d, key %d", vamp, k.channel, k.key)
			}
		}
		for _, k := range bass {
			if k.channel != 2 || k.key < 28 || k.key > 55 {
				t.Fatalf("%s: a bass note on channel %d, key %d", vamp, k.channel, k.key)
			}
		}
		end := markers["end of loop"]
		if end == 0 || end%bar != 0 || len(bars) < int(end/bar) {
			t.Errorf("%s: the loop ends at tick %d, drums in %d bars", vamp, end, len(bars))
		}
	}
	struck, _ := tracksOf(t, writtenMIDI(t, ex, "vamp=funk&mute=drums&mute=bass"))
	if len(struck["Bass"])+len(struck["Drums"]) > 0 || len(struck["Line"]) != len(ex.Notes) {
		t.Errorf("muted parts are written, or not the line: %d tracks", len(struck))
	}
	if struck, _ := tracksOf(t, writtenMIDI(t, ex, "vamp=click")); len(struck["Bass"])+len(struck["Drums"]) > 0 {
		t.Error("a click has a band")
	}
}

func TestALineWithABandReadsBack(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Chord: "A7", Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Feel: "swing 2:1", Pickup: 0.5, Touch: "blues"})
	if err != nil {
		t.Fatal(err)
	}
	im, err := notefile.Read("line.mid", bytes.NewReader(writtenMIDI(t, ex, "")), "")
	if err != nil {
		t.Fatal(err)
	}
	same := slices.EqualFunc(im.Notes, ex.Notes, func(a exercise.GivenNote, b exercise.Note) bool {
		return a.Pitch == b.Pitch && a.Start == b.Start && a.Duration == b.Duration && a.Touch == b.Touch && a.Group == b.Group
	})
	if im.Part != "Line" || !same {
		t.Errorf("%s with %d notes came back, want the line with %d", im.Part, len(im.Notes), len(ex.Notes))
	}
}
