package line

import (
	"strings"
	"testing"
)

// Each note's beams from the outermost: [ begins, = goes on, ] ends, > and <
// hooks; - for none.
func TestBeamsShowTheBar(t *testing.T) {
	signs := map[Beam]string{BeamBegins: "[", BeamContinues: "=", BeamEnds: "]", BeamHookForward: ">", BeamHookBackward: "<"}
	for _, row := range []struct{ meter, lengths, want string }{
		{"4/4", "480 480 480 480 480 480 480 480", "[ = = ] [ = = ]"},
		{"4/4", "960 480 480 480 480 960", "- [ ] [ ] -"}, // never across the middle
		{"4/4", "r480 480 480 480 1920", "- [ = ] -"},
		{"4/4", "480 480 240 240 480 480 480 480 480", "[ ] [[ =] ] [ = = ]"}, // a sixteenth parts the beats
		{"4/4", "480 480 320 320 320 1920", "[ ] [ = ] -"},
		{"4/4", "480 960 480 1920", "- - - -"},
		{"3/4", "480 480 480 480 480 480", "[ = = = = ]"},
		{"5/4", "480 480 480 480 480 480 480 480 480 480", "[ = = = = ] [ = = ]"},
		{"2/4", "720 240 960", "[ ]< -"},
		{"2/4", "240 720 960", "[> ] -"},
		{"2/4", "240 480 240 960", "[> = ]< -"},
		{"2/4", "240 240 480 960", "[[ =] ] -"},
		{"2/4", "360 120 480 960", "[[ =]< ] -"},
		{"2/4", "480 120 360 960", "[ =[> ]] -"},
		{"2/4", "120 120 120 120 120 120 120 120 960", "[[[ === === ==] ==[ === === ]]] -"},
		{"2/4", "160 160 160 160 160 160 960", "[[ == =] =[ == ]] -"},
		{"2/4", "480 r480 480 480", "- - [ ]"},
		{"2/4", "r160 160 160 480 960", "- [[ ]] - -"}, // a tuplet is not torn
		{"2/2", "480 480 480 480 1920", "[ = = ] -"},
		{"6/8", "480 480 480 480 480 480", "[ = ] [ = ]"},
		{"6/8", "160 160 160 480 480 1440", "[[ == =] = ] -"},
		{"7/8", "480 480 480 480 480 480 480", "[ ] [ ] [ = ]"},
	} {
		var words []string
		for _, w := range write(t, row.meter, 0, row.lengths)[0] {
			word := ""
			for _, b := range w.Beams {
				word += signs[b]
			}
			if word == "" {
				word = "-"
			}
			words = append(words, word)
		}
		if got := strings.Join(words, " "); got != row.want {
			t.Errorf("%s %s:\n got %s\nwant %s", row.meter, row.lengths, got, row.want)
		}
	}
}
