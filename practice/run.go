package practice

import (
	"math"
	"strconv"
	"time"

	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
)

// A Run is one playing of a unit.
type Run struct {
	ID      int64
	UID     string // the same in every folder that the run was sent to
	Unit    Unit
	At      time.Time // when it began, in the player's time zone
	Seconds float64   // how long it was practised for
	Tempo   float64
	Went    Went
	Marks   *Marks // nil where no take was marked
	Take    string // name of the kept take; may be empty
	Struck  bool
}

// Marks are what is kept of a marked take.
type Marks struct {
	Right    int        `json:"right"`
	Wrong    int        `json:"wrong"`
	Missed   int        `json:"missed"`
	Extra    int        `json:"extra"`
	MedianMS float64    `json:"timing_ms_median"`
	SpreadMS float64    `json:"timing_ms_spread"`
	Notes    []NoteMark `json:"notes"`
}

// A NoteMark is the mark of one written note and the moves that led to it.
type NoteMark struct {
	Right    bool    `json:"right"`
	TimingMS float64 `json:"timing_ms"`
	Moves    []Move  `json:"moves"`
}

// marksOf takes from a report what is kept with a run.
func marksOf(ex *exercise.Exercise, r *hear.Report) *Marks {
	s := r.Summary
	m := &Marks{Right: s.Right, Wrong: s.Wrong, Missed: s.Missed, Extra: s.Extra, MedianMS: s.TimingMSMedian, SpreadMS: s.TimingMSSpread,
		Notes: make([]NoteMark, len(r.Marks))}
	moves := movesOf(ex)
	for i, mark := range r.Marks {
		m.Notes[i] = NoteMark{Right: mark.Verdict == hear.Right, TimingMS: mark.TimingMS, Moves: moves[mark.Index]}
	}
	return m
}

// Longest is the longest that one run may last.
const Longest = 4 * time.Hour

// Check refuses a run that can't be true. Now is the latest it may have begun.
func (r *Run) Check(now time.Time) error {
	if err := checkTempo("tempo", r.Tempo); err != nil {
		return err
	}
	switch {
	case r.Went.String() == "":
		return &pitch.InputError{What: "went", Value: "", Want: "fell apart, shaky, clean or relaxed"}
	case math.IsNaN(r.Seconds) || r.Seconds <= 0 || r.Seconds > Longest.Seconds():
		return &pitch.InputError{What: "minutes", Value: strconv.FormatFloat(r.Seconds/60, 'g', 6, 64), Want: "more than 0 and at most 240"}
	case r.At.Year() < 1970 || r.At.After(now.Add(time.Minute)):
		return &pitch.InputError{What: "at", Value: r.At.Format(time.RFC3339), Want: "a time from 1970 up to now"}
	}
	return nil
}

func checkTempo(what string, tempo float64) error {
	if tempo >= exercise.SlowestTempo && tempo <= exercise.FastestTempo {
		return nil
	}
	return &pitch.InputError{What: what, Value: strconv.FormatFloat(tempo, 'g', 6, 64), Want: "quarter notes a minute from 20 to 400"}
}

// DayLayout is how days are written.
const DayLayout = "2006-01-02"

// Day returns the day of a time in its own zone.
func Day(at time.Time) string { return at.Format(DayLayout) }

// Fill takes from a marked take what the run does not say itself: marks, how it
// went, the tempo and the length.
func (r *Run) Fill(ex *exercise.Exercise, report *hear.Report, lengthS float64) {
	r.Marks = marksOf(ex, report)
	if r.Tempo == 0 {
		r.Tempo = math.Round(max(exercise.SlowestTempo, min(report.Tempo, exercise.FastestTempo)))
	}
	r.Went = grade(*r.Marks, noteMS(ex, r.Tempo))
	if r.Seconds == 0 {
		r.Seconds = max(1, lengthS)
	}
}
