package deliver

import (
	"bytes"
	"strings"
	"testing"

	"heddle/exercise"
)

// Two bars of 4/4 at 120 quarter notes a minute last four seconds, one two, none
// nothing: both kinds of captions wait for the count-in, as the sound does.
func TestCaptionsWaitForTheCountIn(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Fret: 10, Tempo: 120})
	if err != nil {
		t.Fatal(err)
	}
	for query, want := range map[string]string{"count-in=0": "00:00:00", "": "00:00:02", "count-in=2": "00:00:04"} {
		choices, err := chosen(t, query)
		if err != nil {
			t.Fatal(err)
		}
		for name, first := range map[string]string{"line.vtt": "group-0\n" + want + ".000 -->", "line.srt": "1\n" + want + ",000 -->"} {
			format, err := ForFile(name)
			if err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := format.Write(t.Context(), &out, ex, choices, nil); err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(out.String(), first) {
				t.Errorf("%s with %q has no %q:\n%.200s", name, query, first, out.String())
			}
			if says := strings.Contains(out.String(), "after "+want[7:]+".000 seconds"); name == "line.vtt" && says != (query != "count-in=0") {
				t.Errorf("%s with %q: says how long it waits: %v", name, query, says)
			}
		}
	}
}
