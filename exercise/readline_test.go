package exercise_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/pitch"
	"heddle/touch"
)

// An exercise in JSON comes back with the same notes, places, fingers, strokes,
// touches, groups and scales, on any instrument.
func TestALineComesBackFromItsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := anyLine(t)
		spec.Touch = rapid.SampledFrom([]string{"plain", "blues", "rock", "funk", "jazz"}).Draw(t, "touch")
		spec.Value = rapid.SampledFrom([]string{"eighth", "eighth-triplet", "quarter"}).Draw(t, "value")
		spec.Feel = rapid.SampledFrom([]string{"straight", "swing 2:1"}).Draw(t, "feel")
		ex := mustBuild(t, spec)
		data, err := json.Marshal(ex)
		if err != nil {
			t.Fatal(err)
		}
		given, err := exercise.ParseLine(data)
		if err != nil {
			t.Fatal(err)
		}
		again, err := exercise.Adopt(given, exercise.Spec{})
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Notes) != len(ex.Notes) || again.Tempo != ex.Tempo || again.Rhythm.Swing != ex.Rhythm.Swing || again.Rhythm.Meter != ex.Rhythm.Meter {
			t.Fatalf("%d notes at %v in %+v, want %d at %v in %+v", len(again.Notes), again.Tempo, again.Rhythm, len(ex.Notes), ex.Tempo, ex.Rhythm)
		}
		for i, n := range again.Notes {
			was := ex.Notes[i]
			if n.Pitch != was.Pitch || n.Start != was.Start || n.Duration != was.Duration || n.Fingering != was.Fingering || n.Touch != was.Touch ||
				n.Group != was.Group || n.Role != was.Role || was.Scale >= 0 && again.Scales[n.Scale].Name() != ex.Scales[was.Scale].Name() {
				t.Fatalf("note %d is %+v, was %+v", i+1, n, was)
			}
		}
	})
}

// line writes a line of one note in JSON.
func oneNote(fields string) string { return `{"notes": [{` + fields + `}]}` }

func TestASingleNoteIsGivenATouchInJSON(t *testing.T) {
	for text, want := range map[string]touch.Touch{
		`"name": "D", "octave": 4, "beat": 0, "duration": 1, "touch": {"bend": 2, "release": true}`:      {Bend: touch.Whole, Release: true},
		`"name": "D", "octave": 4, "beat": 0, "duration": 1, "touch": "bend 0.5, vibrato"`:               {Bend: touch.Quarter, Vibrato: true},
		`"name": "D", "octave": 4, "beat": 0, "duration": 1, "touch": {"slide": "into", "accent": true}`: {Slide: touch.Into, Accent: true},
		`"name": "D", "octave": 4, "beat": 0, "duration": 1`:                                             {},
	} {
		given, err := exercise.ParseLine([]byte(oneNote(text)))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		ex, err := exercise.Adopt(given, exercise.Spec{Home: "D dorian"})
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		n := ex.Notes[0]
		if n.Touch != want || ex.Instrument.MIDI(n.Spot)+want.Bend.Below() != n.Pitch.MIDI() || n.Pitch.String() != "D4" {
			t.Errorf("%s: %q on %v", text, n.Touch, n.Spot)
		}
	}
}

func TestBadJSONOfALineIsNamed(t *testing.T) {
	const sound = `"name": "D", "octave": 4, "beat": 0, "duration": 1`
	for _, c := range []struct{ text, what, want string }{
		{`{`, "line", "JSON"},
		{`{"notes": []}`, "line", "1 to"},
		{oneNote(`"name": "D"`), "note 1", "octave"},
		{oneNote(`"name": "H", "octave": 4, "beat": 0, "duration": 1`), "note 1", "note name"},
		{oneNote(`"name": "D", "octave": 4, "midi": 61, "beat": 0, "duration": 1`), "note 1", "62"},
		{oneNote(`"name": "D", "octave": 4, "duration": 1`), "note 1", "beat"},
		{oneNote(`"name": "D", "octave": 4, "beat": 0, "duration": 0`), "note 1", "duration"},
		{oneNote(sound + `, "stroke": "sweep"`), "note 1", "hammer-on"},
		{oneNote(sound + `, "role": "hero"`), "note 1", "landing"},
		{oneNote(sound + `, "finger": 7`), "note 1", "0 to 4"},
		{oneNote(sound + `, "touch": {"bend": 3}`), "note 1", "semitones"},
		{oneNote(sound + `, "touch": {"wobble": true}`), "note 1", "touch"},
		{oneNote(sound + `, "touch": "wobble"`), "note 1", "vibrato"},
		{`{"notes": [{` + sound + `}, {` + sound + `}]}`, "note 2 beat", "at or after"},
		{`{"spec": {"tempo": 5000}, "notes": [{` + sound + `}]}`, "tempo", "400"},
		{`{"spec": {"meter": "4/7"}, "notes": [{` + sound + `}]}`, "meter", "4/4"},
	} {
		_, err := exercise.ParseLine([]byte(c.text))
		var input *pitch.InputError
		if !errors.As(err, &input) || input.What != c.what || !strings.Contains(input.Want, c.want) {
			t.Errorf("%s: %v, want an error about %s that says %s", c.text, err, c.what, c.want)
		}
	}
}

func FuzzParseLine(f *testing.F) {
	f.Add([]byte(oneNote(`"name": "D", "octave": 4, "beat": 0, "duration": 1, "touch": {"bend": 2}`)))
	f.Add([]byte(`{"spec": {"tempo": 90}, "notes": [{"name": "Bb", "octave": 3, "beat": -0.5, "duration": 0.5, "string": 3, "fret": 3}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		given, err := exercise.ParseLine(data)
		if err != nil {
			return
		}
		if ex, err := exercise.Adopt(given, exercise.Spec{}); err == nil && len(ex.Notes) != len(given.Notes) {
			t.Fatalf("%d notes became %d", len(given.Notes), len(ex.Notes))
		}
	})
}
