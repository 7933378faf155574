package notefile

import (
	"strings"
	"testing"

	"heddle/line"
)

func TestBeamsFollowTheBeat(t *testing.T) {
	for _, c := range []struct{ meter, spans, want string }{
		{"4/4", "480 480 480 480 1920", "begin end begin end -"},
		{"2/4", "720 240 960", "begin end/backward hook -"},
		{"2/4", "240 720 960", "begin/forward hook end -"},
		{"2/4", "240 480 240 960", "begin/forward hook continue end/backward hook -"},
		{"2/4", "240 240 480 960", "begin/begin continue/end end -"},
		{"2/4", "160 160 160 160 160 160 960", "begin/begin continue/continue continue/end continue/begin continue/continue end/end -"},
		{"2/4", "480 r480 480 480", "- - begin end"},
		{"6/8", "480 480 480 480 480 480", "begin continue end begin continue end"},
		{"7/8", "480 480 480 480 480 480 480", "begin end begin end begin continue end"},
	} {
		m, err := line.ParseMeter(c.meter)
		if err != nil {
			t.Fatal(err)
		}
		var words []string
		for _, s := range writeBar(barOf(m), spansFrom(c.spans)) {
			word := strings.Join(s.Beams, "/")
			if word == "" {
				word = "-"
			}
			words = append(words, word)
		}
		if got := strings.Join(words, " "); got != c.want {
			t.Errorf("%s %s:\n got %s\nwant %s", c.meter, c.spans, got, c.want)
		}
	}
}
