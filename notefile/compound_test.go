package notefile

import (
	"bytes"
	"strings"
	"testing"

	"heddle/exercise"
)

// The tempo of a compound metre counts dotted quarters: in the metronome mark of
// MusicXML, and in the clicks of MIDI's time signature (36 clocks of 24 to the quarter).
func TestCompoundMetresCountDottedQuarters(t *testing.T) {
	for _, c := range []struct{ meter, mark, clocks string }{
		{"6/8", "<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>56</per-minute>", "\xff\x58\x04\x06\x03\x24\x08"},
		{"12/8", "<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>56</per-minute>", "\xff\x58\x04\x0c\x03\x24\x08"},
		{"4/4", "<beat-unit>quarter</beat-unit><per-minute>84</per-minute>", "\xff\x58\x04\x04\x02\x18\x08"},
		{"2/2", "<beat-unit>half</beat-unit><per-minute>42</per-minute>", "\xff\x58\x04\x02\x01\x30\x08"},
		{"7/8", "<beat-unit>quarter</beat-unit><per-minute>84</per-minute>", "\xff\x58\x04\x07\x03\x18\x08"},
	} {
		ex, err := exercise.Build(exercise.Spec{Home: "A minor pentatonic", Meter: c.meter, Tempo: 84})
		if err != nil {
			t.Fatal(err)
		}
		var page bytes.Buffer
		if err := WriteMusicXML(&page, ex); err != nil {
			t.Fatal(err)
		}
		flat := strings.Join(strings.Fields(page.String()), "")
		if !strings.Contains(strings.ReplaceAll(flat, "</beat-unit-dot>", ""), strings.ReplaceAll(c.mark, " ", "")) {
			at := strings.Index(flat, "<metronome>")
			t.Errorf("in %s the mark is %.120s, want %s", c.meter, flat[at:], c.mark)
		}
		if !strings.Contains(flat, `<soundtempo="84"`) {
			t.Errorf("in %s the tempo for playback is not 84 quarter notes", c.meter)
		}
		if !bytes.Contains(midiOf(t, ex), []byte(c.clocks)) {
			t.Errorf("in %s MIDI's time signature is not % x", c.meter, c.clocks)
		}
	}
}
