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
	Behind  int           // how far the take lies behind its click, in ms
}

// A takeCount is one number of the summary with its sign.
type takeCount struct {
	Kind, Text string
	N          int
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

// newTakeReport puts a report into words and a picture of room pixels' width.
func newTakeReport(ex *exercise.Exercise, r *takeMarks, room int) *takeReport {
	s := r.Summary
	over, outside := drawOver(ex, r.Report, room)
	report := &takeReport{
		Counts: []takeCount{{"right", "right", s.Right}, {"wrong", "wrong", s.Wrong}, {"missed", "missed", s.Missed}, {"extra", "extra", s.Extra}},
		Advice: r.advice, Over: over, Room: room, Tempo: decimal(r.Tempo),
		Behind: int(math.Round(r.behindMS)),
	}
	if !r.clicked && r.behindMS != 0 {
		report.Advice = append([]string{fmt.Sprintf("The whole take lies %s against the click, more likely by a delay of the device than by yours; so it is marked by your own beat.", timingWords(r.behindMS))}, report.Advice...)
	}
	if s.Right+s.Wrong > 0 && !r.ofAnotherLine() {
		report.OffsetS, report.Facts = decimal(r.OffsetS), takeFacts(r)
	}
	if outside > 0 {
		report.Facts = append(report.Facts, count(outside, "extra note")+" outside the line: not drawn.")
	}
	if n := len(r.Before); n > 0 {
		report.Facts = append(report.Facts, count(n, "note")+" before the line: not counted.")
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
			row.Timing, row.Cents = timingWords(m.TimingMS), signed(m.Cents)
		}
		if m.Verdict == hear.Wrong {
			row.Heard, row.Cents = semitoneWords(m.Cents), ""
		}
		report.Rows = append(report.Rows, row)
	}
	return report
}

// takeFacts says what holds for the take as a whole.
func takeFacts(r *takeMarks) []string {
	against := "your own beat"
	if r.clicked {
		against = "the click"
	}
	facts := []string{
		fmt.Sprintf("Timing against %s: %s in the middle, most notes within %.0f ms of that.", against, timingWords(r.Summary.TimingMSMedian), math.Max(1, r.Summary.TimingMSSpread)),
		fmt.Sprintf("Tempo: %s.", decimal(r.Tempo)),
		fmt.Sprintf("Tuning: %s cents from A = 440 Hz, allowed for in the marks.", signed(r.TuningCents)),
	}
	if n := len(r.Retried); n > 0 {
		facts = append(facts, fmt.Sprintf("%s played again; the last attempt counts.", count(n, "note")))
	}
	return facts
}

// timingWords says how late a note is; a millisecond is on time.
func timingWords(ms float64) string {
	switch whole := math.Round(ms); {
	case whole < -1:
		return fmt.Sprintf("%.0f ms early", -whole)
	case whole > 1:
		return fmt.Sprintf("%.0f ms late", whole)
	}
	return "on time"
}

// semitoneWords says how far off a wrong note is.
func semitoneWords(cents float64) string {
	way := "high"
	if cents < 0 {
		way = "low"
	}
	return count(int(math.Round(math.Abs(cents)/100)), "semitone") + " too " + way
}

// signed writes a whole number with its sign, a real minus.
func signed(x float64) string {
	switch whole := math.Round(x); {
	case whole < 0:
		return fmt.Sprintf("−%.0f", -whole)
	case whole > 0:
		return fmt.Sprintf("+%.0f", whole)
	}
	return "0"
}
