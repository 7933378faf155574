package bench

import (
	"fmt"
	"html/template"
	"math"
	"strconv"

	"heddle/exercise"
	"heddle/hear"
)

// A takeReport is a marked take as the page shows it.
type takeReport struct {
	Counts  []takeCount
	Advice  []string
	Facts   []string // timing, tempo, tuning
	Rows    []takeRow
	Over    template.HTML // what was heard over what was written
	Room    int           // pixels that it is drawn for
	OffsetS string        // when the first written note falls in the recording; empty where none was heard
	Tempo   string        // as played
	Behind  int           // how far the take is behind its click, in ms
}

// A takeCount is one number of the summary.
type takeCount struct {
	Kind string
	N    int
}

// A takeRow is the verdict on one written note in words.
type takeRow struct {
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

// newTakeReport puts a report into words and a picture that is room pixels wide.
func newTakeReport(ex *exercise.Exercise, r *hear.Report, room int) *takeReport {
	s := r.Summary
	drawn := *r
	drawn.Extra = r.Extra[:min(len(r.Extra), mostExtras)]
	over, outside := drawOver(ex, &drawn, room)
	report := &takeReport{
		Counts: []takeCount{{"right", s.Right}, {"wrong", s.Wrong}, {"missed", s.Missed}, {"extra", s.Extra}},
		Advice: r.Advice, Facts: r.Facts(), Room: room, Tempo: decimal(r.Tempo), Behind: int(math.Round(r.BehindMS)),
	}
	if len(over.Items) > 0 {
		report.Over, _ = pictureOf(over)() // a builder takes everything
	}
	if delay := r.DelayText(); delay != "" {
		report.Advice = append([]string{delay}, report.Advice...)
	}
	if s.Right+s.Wrong > 0 && !r.OtherLine() {
		report.OffsetS = decimal(r.OffsetS)
	}
	if outside > 0 {
		report.Facts = append(report.Facts, count(outside, "extra note")+" outside the line: not drawn.")
	}
	if more := len(r.Extra) - len(drawn.Extra); more > 0 {
		report.Facts = append(report.Facts, fmt.Sprintf("The first %d extra notes are drawn; %d more are not.", mostExtras, more))
	}
	group := -1
	for _, m := range r.Marks {
		n := ex.Notes[m.Index]
		row := takeRow{
			Number: m.Index + 1, Name: ex.Naming.Name(n.Pitch.Name) + strconv.Itoa(n.Pitch.Octave), String: n.String, Fret: n.Fret,
			Kind: string(m.Verdict), Verdict: string(m.Verdict), FirstOfGroup: n.Group != group,
		}
		group = n.Group
		if m.Verdict != hear.Missed {
			row.Timing, row.Cents = hear.TimingText(m.TimingMS), hear.Signed(m.Cents)
		}
		if m.Verdict == hear.Wrong {
			row.Heard, row.Cents = semitoneWords(m.Cents), ""
		}
		report.Rows = append(report.Rows, row)
	}
	return report
}

// semitoneWords says how far off a wrong note is.
func semitoneWords(cents float64) string {
	way := "high"
	if cents < 0 {
		way = "low"
	}
	return count(int(math.Round(math.Abs(cents)/100)), "semitone") + " too " + way
}
