package notefile

import (
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// maxBars bounds what is written: ten hours of 4/4 at 60, far beyond any
// exercise, so that an end in the far future is an error and not a full disk.
const maxBars = 9000

// barsOf cuts an exercise in bars, from its pickup to the end of the bar in
// which it ends.
func barsOf(ex *exercise.Exercise) ([]line.Bar, error) {
	m := ex.Rhythm.Meter
	if err := m.Check(); err != nil {
		return nil, err
	}
	first, last, err := extent(ex)
	if err != nil {
		return nil, err
	}
	if length := (last - first) / m.Bar(); length >= maxBars {
		return nil, &pitch.InputError{What: "length", Value: strconv.Itoa(int(length)), Want: fmt.Sprintf("at most %d bars", maxBars)}
	}
	return line.Bars(m, first, last), nil
}

// barNumber returns the number of a measure: 0 for a pickup, as is common
// practice, and X for what stands before it.
func barNumber(b line.Bar) string {
	if b.Number < 0 {
		return "X" + strconv.Itoa(-b.Number)
	}
	return strconv.Itoa(b.Number)
}

// extent returns where an exercise begins, a pickup before 0, and ends. Notes
// must follow one another, as they do in every line.
func extent(ex *exercise.Exercise) (first, last line.Beat, err error) {
	first, last = min(0, -ex.Rhythm.Pickup), ex.Length
	var end line.Beat
	for i, n := range ex.Notes {
		if n.Duration <= 0 || i > 0 && n.Start < end {
			return 0, 0, &pitch.InputError{What: "note", Value: fmt.Sprintf("%d (%s at beat %.6g)", i+1, n.Pitch, n.Start.Quarters()),
				Want: "a line of notes that last and do not overlap"}
		}
		end = n.End()
		first, last = min(first, n.Start), max(last, end)
	}
	return first, last, nil
}

// spansOf returns where the notes of an exercise stand.
func spansOf(notes []exercise.Note) []line.Span {
	spans := make([]line.Span, len(notes))
	for i, n := range notes {
		spans[i] = line.Span{Note: i, Start: n.Start, End: n.End()}
	}
	return spans
}
