package take

import (
	"fmt"
	"html/template"
	"math"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
)

// A report is a marked take as the page shows it.
type report struct {
	Counts  []count
	Advice  []string
	Facts   []string // timing, tempo, tuning
	Rows    []noteRow
	Over    template.HTML // what was heard over what was written
	Room    int           // pixels that it is drawn for
	OffsetS string        // when the first written note falls in the recording; empty where none was heard
	Tempo   string        // as played
	Behind  int           // how far the take is behind its click, in ms
}

// A count is one number of the summary.
type count struct {
	Kind string
	N    int
}

// A noteRow is the verdict on one written note in words.
type noteRow struct {
	Number               int
	Name                 string
	String, Fret         int
	Kind, Verdict, Heard string
	Timing, Cents        string
	FirstOfGroup         bool
}

// mostExtras is how many extra notes are drawn, more than any real take has:
// with all that ten minutes could hold, a page would grow to several megabytes.
const mostExtras = 1000

// newReport puts a report into words and a picture that is room pixels wide.
func newReport(ex *exercise.Exercise, r *hear.Report, room int) *report {
	s := r.Summary
	drawn := *r
	drawn.Extra = r.Extra[:min(len(r.Extra), mostExtras)]
	over, outside := drawOver(ex, &drawn, room)
	shown := &report{
		Counts: []count{{"right", s.Right}, {"wrong", s.Wrong}, {"missed", s.Missed}, {"extra", s.Extra}},
		Advice: r.Advice, Facts: r.Facts(), Room: room, Tempo: site.Decimal(r.Tempo), Behind: int(math.Round(r.BehindMS)),
	}
	if len(over.Items) > 0 {
		shown.Over, _ = site.Picture(over) // a builder takes everything
	}
	if delay := r.DelayText(); delay != "" {
		shown.Advice = append([]string{delay}, shown.Advice...)
	}
	if s.Right+s.Wrong > 0 && !r.OtherLine() {
		shown.OffsetS = site.Decimal(r.OffsetS)
	}
	if outside > 0 {
		shown.Facts = append(shown.Facts, pitch.Count(outside, "extra note")+" outside the line: not drawn.")
	}
	if more := len(r.Extra) - len(drawn.Extra); more > 0 {
		shown.Facts = append(shown.Facts, fmt.Sprintf("The first %d extra notes are drawn; %d more are not.", mostExtras, more))
	}
	group := -1
	for _, m := range r.Marks {
		n := ex.Notes[m.Index]
		row := noteRow{
			Number: m.Index + 1, Name: ex.Naming.Pitch(n.Pitch), String: n.String, Fret: n.Fret,
			Kind: string(m.Verdict), Verdict: string(m.Verdict), FirstOfGroup: n.Group != group,
		}
		group = n.Group
		if m.Verdict != hear.Missed {
			row.Timing, row.Cents = hear.TimingText(m.TimingMS), hear.Signed(m.Cents)
		}
		if m.Verdict == hear.Wrong {
			row.Heard, row.Cents = semitoneWords(m.Cents), ""
		}
		shown.Rows = append(shown.Rows, row)
	}
	return shown
}

// semitoneWords says how far off a wrong note is.
func semitoneWords(cents float64) string {
	way := "high"
	if cents < 0 {
		way = "low"
	}
	return pitch.Count(int(math.Round(math.Abs(cents)/100)), "semitone") + " too " + way
}
