package take_test

import (
	"encoding/json"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/bench/benchtest"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/hear"
)

// mostTakePage is the largest page in bytes that a kept take may make.
const mostTakePage = 2 << 20

// TestTheLargestTakeMakesABoundedPage edits a take by hand until it holds as
// much as is read back: the longest line, every note wrong, twenty extra notes
// a second for ten minutes, and long advice.
func TestTheLargestTakeMakesABoundedPage(t *testing.T) {
	data := t.TempDir()
	home := benchtest.Keep(t, data)
	name := keepQuickly(t, data, benchtest.Thursday)
	spec, err := exercise.ParseQuery("home=G+minor&value=sixteenth-triplet&tempo=20&bars=64&direction=down-up&changes=" + url.QueryEscape(strings.Repeat("Gm7 | ", 63)+"Gm7"))
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	report := hear.Mark(nil, 0, ex, hear.TakeOptions{})
	lengthS := ex.Length.Quarters() * 60 / ex.Tempo
	const extras = 20 * audio.LongestS
	for i := range int(extras) {
		onset := lengthS * float64(i) / extras
		report.Heard = append(report.Heard, hear.Heard{OnsetS: onset, OffsetS: onset + 0.1, MIDI: 60 + float64(i%7), Confidence: 1, Level: -20})
		report.Extra = append(report.Extra, i)
	}
	for i := range report.Marks {
		report.Marks[i] = hear.NoteMark{Index: i, Verdict: hear.Wrong, Heard: i * len(report.Heard) / len(report.Marks), TimingMS: -123.4567, Cents: 1234.5678}
	}
	report.OffsetS, report.Tempo = 0, ex.Tempo
	report.Advice = nil
	for range 50 {
		report.Advice = append(report.Advice, strings.Repeat("a", 8<<10))
	}
	text, err := json.Marshal(&takes.Take{
		Taken: benchtest.Thursday, Spec: ex.Spec, Sentence: ex.Sentence, Written: takes.Keys(ex), Report: report, Rate: 48000, LengthS: lengthS,
	})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(data, "takes", name, takes.ReportFile)
	if err := os.WriteFile(file, text, 0o600); err != nil {
		t.Fatal(err)
	}
	page := got(t, home+"/takes/"+name)
	t.Logf("%d notes: %d KB of JSON, %d KB of page", len(ex.Notes), len(text)/1000, len(page)/1000)
	if !strings.Contains(page, "11000 more are not.") {
		t.Error("the page does not say how many extra notes it leaves out")
	}
	if len(page) > mostTakePage {
		t.Errorf("the page has %d bytes, want at most %d", len(page), mostTakePage)
	}
}
