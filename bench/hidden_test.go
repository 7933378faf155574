package bench_test

import (
	"encoding/json"
	"html"
	"regexp"
	"strings"
	"testing"
)

func TestNothingTellsWhatIsHidden(t *testing.T) {
	const spec = "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&land=third"
	h := handler(t)
	named := regexp.MustCompile(`(?:\b[A-G][♭♯]? ){2}`)
	for _, c := range []struct {
		hide          string
		names, places bool
	}{{"", true, true}, {"&hide=names", false, true}, {"&hide=tab", true, false}, {"&hide=line", false, false}} {
		page := ask(h, "GET", spec+c.hide).Body.String()
		endings := regexp.MustCompile(`id="ending-1"[^>]*><b>1</b><span>([^<]+)</span>`).FindStringSubmatch(page)
		if len(endings) == 0 {
			t.Fatalf("%s: there is no first ending", c.hide)
		}
		if told := !strings.HasSuffix(endings[1], "notes"); told != (c.names) {
			t.Errorf("%s: the ending is %q", c.hide, endings[1])
		}
		says := ""
		for _, m := range regexp.MustCompile(`<desc id="(?:sheet|strip)[^>]*>([^<]*)</desc>`).FindAllStringSubmatch(page, -1) {
			says += html.UnescapeString(m[1]) + "\n"
		}
		if says == "" {
			t.Fatalf("%s: the pictures are not described", c.hide)
		}
		if told := regexp.MustCompile(`[A-G][♭♯]? string|(?m)^[A-G][♭♯]? [♭♯]?\d`).MatchString(says); told != (c.names && c.places) && c.hide != "&hide=tab" {
			t.Errorf("%s: a screen reader is told %.300s", c.hide, says)
		}
		if strings.Contains(says, "fret") != c.places {
			t.Errorf("%s: a screen reader is told %.300s", c.hide, says)
		}
		if c.hide == "&hide=line" && (named.MatchString(says) || strings.Contains(says, "chord tone")) {
			t.Errorf("a screen reader is told the hidden line: %.300s", says)
		}
	}
}

// What the message of a line too long to play advises does help.
func TestALineTooLongToPlaySaysWhatHelps(t *testing.T) {
	const line = "home=G+minor+pentatonic&value=sixteenth-triplet"
	h := handler(t)
	const want = `playing time "12:48": want at most 3:00, as with 15 bars or a tempo of 86`
	for _, path := range []string{"/sound/timeline?", "/line.wav?"} {
		w := ask(h, "GET", path+line+"&bars=64&tempo=20")
		if got := strings.TrimSpace(w.Body.String()); w.Code != 400 || got != want {
			t.Errorf("%s: status %d, %q, want 400, %q", path, w.Code, got, want)
		}
	}
	for _, better := range []string{"&bars=15&tempo=20", "&bars=64&tempo=86"} {
		var timeline struct {
			Samples    int
			SampleRate int `json:"sample_rate"`
		}
		w := ask(h, "GET", "/sound/timeline?"+line+better)
		if err := json.Unmarshal(w.Body.Bytes(), &timeline); err != nil {
			t.Fatalf("%s: %v: %s", better, err, w.Body)
		}
		if seconds := timeline.Samples / timeline.SampleRate; seconds < 170 || seconds > 180 {
			t.Errorf("%s lasts %d seconds, want just under 3 minutes", better, seconds)
		}
	}
}
