package notefile

import (
	"bytes"
	"math"
	"testing"

	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"heddle/exercise"
	"heddle/line"
	"heddle/touch"
)

// A wheelTurn is where the pitch wheel is from a tick on, in semitones.
type wheelTurn struct {
	tick      int64
	semitones float64
}

// wheelOf returns the turns of the line's pitch wheel as gomidi (v2.3.16) reads them,
// and the bend range that registered parameter 0 sets.
func wheelOf(track smf.Track) (turns []wheelTurn, bendRange float64) {
	now := int64(0)
	parameter := map[uint8]uint8{}
	for _, event := range track {
		now += int64(event.Delta)
		message := midi.Message(event.Message)
		var channel, controller, value uint8
		var relative int16
		var absolute uint16
		switch {
		case message.GetControlChange(&channel, &controller, &value):
			parameter[controller] = value
			if controller == 6 && parameter[101] == 0 && parameter[100] == 0 {
				bendRange = float64(value)
			}
		case message.GetPitchBend(&channel, &relative, &absolute):
			turns = append(turns, wheelTurn{now, float64(relative) / 8192 * bendRange})
		}
	}
	return turns, bendRange
}

// wheelAt returns where the wheel is at a tick.
func wheelAt(turns []wheelTurn, tick int64) (semitones float64) {
	for _, t := range turns {
		if t.tick > tick {
			break
		}
		semitones = t.semitones
	}
	return semitones
}

// The wheel takes a bent note from where its string is stopped to its key, a
// quarter-tone bend a quarter tone above it, and is in the middle where a plain note
// begins.
func TestTheWheelBendsToThePitch(t *testing.T) {
	const near = 0.02 // semitones, two cents
	bends, plains := map[touch.Bend]int{}, 0
	for i, ex := range samples(t) {
		file, err := smf.ReadFrom(bytes.NewReader(midiOf(t, ex)))
		if err != nil {
			t.Fatal(err)
		}
		turns, bendRange := wheelOf(file.Tracks[1])
		if len(turns) > 0 && bendRange != 12 {
			t.Fatalf("%s: the bend range is %v", sampleName(i, ex), bendRange)
		}
		for j, n := range gomidiNotes(file.Tracks[1]) {
			shape := ex.Notes[j].Touch
			at := func(share float64) float64 { return wheelAt(turns, n.start+int64(share*float64(n.end-n.start))) }
			want := map[float64]float64{}
			switch {
			case shape.Bend >= touch.Half:
				want[0], want[0.68] = -float64(shape.Bend), 0
			case shape.Bend == touch.Quarter:
				want[0], want[0.68] = 0, 0.5
			case shape.Slide == touch.Into:
				want[0], want[0.5] = -2, 0
			default:
				want[0] = 0
				plains++
			}
			for share, semitones := range want {
				if share > 0 && (shape.Vibrato || n.end-n.start < 100) {
					continue
				}
				if got := at(share); math.Abs(got-semitones) > near {
					t.Fatalf("%s: after %v of note %d, %q, the wheel is at %v semitones, want %v", sampleName(i, ex), share, j, shape, got, semitones)
				}
			}
			bends[shape.Bend]++
		}
	}
	if plains == 0 || bends[touch.Quarter] == 0 || bends[touch.Half]+bends[touch.Whole] == 0 {
		t.Errorf("bends met: %v", bends)
	}
}

// A plain line that nothing bends leaves the wheel alone.
func TestAPlainLineHasNoBendRange(t *testing.T) {
	file, err := smf.ReadFrom(bytes.NewReader(midiOf(t, built(t, workedExample()))))
	if err != nil {
		t.Fatal(err)
	}
	if turns, bendRange := wheelOf(file.Tracks[1]); len(turns) > 0 || bendRange != 0 {
		t.Errorf("%d turns of the wheel, range %v", len(turns), bendRange)
	}
}

// The cues of our own file give back the groups, their scales, home first, and the
// landing.
func TestOurOwnMIDIFilesKeepTheirGroups(t *testing.T) {
	for _, names := range []string{"english", "german", "solfege"} {
		spec := workedExample()
		spec.Land, spec.Names, spec.Touch = "third", names, "blues"
		ex := built(t, spec)
		im, err := Read("line.mid", bytes.NewReader(midiOf(t, ex)), "")
		if err != nil {
			t.Fatal(err)
		}
		again, err := exercise.Adopt(im.Given, exercise.Spec{})
		if err != nil {
			t.Fatal(err)
		}
		if again.Spec.Home != "G minor pentatonic" || len(again.Spec.Superimpose) != 1 || again.Spec.Superimpose[0] != "Ab minor pentatonic" {
			t.Errorf("%s: home %s, superimposed %q", names, again.Spec.Home, again.Spec.Superimpose)
		}
		for i, n := range again.Notes {
			was := ex.Notes[i]
			sameGroup := i == 0 || (n.Group == again.Notes[i-1].Group) == (was.Group == ex.Notes[i-1].Group && was.Role == ex.Notes[i-1].Role)
			if !sameGroup || n.Role != was.Role || n.Pitch != was.Pitch || was.Role == line.PatternRole && n.Scale != was.Scale {
				t.Fatalf("%s: note %d is %+v, was %+v", names, i, n.Note, was.Note)
			}
		}
	}
}
