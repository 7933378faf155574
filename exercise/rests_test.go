package exercise

import (
	"strings"
	"testing"
)

// A rest or a pickup that falls between the notes of a triplet would put every later
// note beside the beat.
func TestRestsAreCountedInNotes(t *testing.T) {
	for _, c := range []struct {
		value     string
		gap, want float64
		says      string
	}{
		{"eighth", 0.5, 0.5, "resting one eighth between"},
		{"eighth", 1, 1, "resting two eighths between"},
		{"eighth", 0.25, 0.25, "resting 0.25 of a quarter between"},
		{"eighth-triplet", 0.5, 0.333, "resting one eighth triplet between"},
		{"eighth-triplet", 0.6, 0.667, "resting two eighth triplets between"},
		{"eighth-triplet", 1, 1, "resting three eighth triplets between"},
		{"sixteenth-triplet", 0.5, 0.5, "resting three sixteenth triplets between"},
		{"quintuplet", 0.05, 0.2, "resting one quintuplet between"},
		{"quintuplet", 0, 0, ""},
	} {
		ex, err := Build(Spec{Home: "A minor pentatonic", Groups: []int{3}, Value: c.value, Gap: c.gap})
		if err != nil {
			t.Fatal(err)
		}
		if ex.Spec.Gap != c.want {
			t.Errorf("a gap of %g in %ss becomes %g, want %g", c.gap, c.value, ex.Spec.Gap, c.want)
		}
		if !strings.Contains(ex.Sentence, c.says) {
			t.Errorf("%q lacks %q", ex.Sentence, c.says)
		}
		again, err := Build(ex.Spec)
		if err != nil || again.Spec.Gap != c.want || again.Rhythm.Gap != ex.Rhythm.Gap {
			t.Errorf("the gap %g becomes %g when it is read again (%v)", c.want, again.Spec.Gap, err)
		}
		if pickup, err := Build(Spec{Home: "A minor pentatonic", Value: c.value, Pickup: c.gap}); err != nil || pickup.Spec.Pickup != c.want {
			t.Errorf("a pickup of %g in %ss becomes %g, want %g (%v)", c.gap, c.value, pickup.Spec.Pickup, c.want, err)
		}
	}
}

func TestCompoundMetresAreCountedPerBeat(t *testing.T) {
	for meter, want := range map[string]string{
		"6/8": "at 84 quarter notes a minute, 56 per beat, in 6/8", "12/8": "56 per beat", "7/8": "at 84 in 7/8", "4/4": "at 84.",
	} {
		ex, err := Build(Spec{Home: "A minor pentatonic", Meter: meter, Tempo: 84})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(ex.Sentence, want) {
			t.Errorf("in %s: %q lacks %q", meter, ex.Sentence, want)
		}
	}
}
