package sheet

import (
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// MaxBars limits what is written: ten hours of 4/4 at 60, far longer than any
// exercise, so that a wrong length is an error and not a full disk.
const MaxBars = 9000

// Bars divides an exercise into bars, from its pickup to the end of its last
// bar. It returns an error for an exercise that can't be written.
func Bars(ex *exercise.Exercise) ([]line.Bar, error) {
	m := ex.Rhythm.Meter
	if err := m.Check(); err != nil {
		return nil, err
	}
	first, last, err := Extent(ex)
	if err != nil {
		return nil, err
	}
	if length := (last - first) / m.Bar(); length >= MaxBars {
		return nil, &pitch.InputError{What: "length", Value: strconv.Itoa(int(length)), Want: fmt.Sprintf("at most %d bars", MaxBars)}
	}
	return line.Bars(m, first, last), CheckTempo(ex.Tempo)
}

// Extent returns where an exercise begins (before 0 if it has a pickup) and
// ends. Notes that overlap or have no length are an error.
func Extent(ex *exercise.Exercise) (first, last line.Beat, err error) {
	first, last = min(0, -ex.Rhythm.Pickup), ex.Length
	var end line.Beat
	for i, n := range ex.Notes {
		if n.Duration <= 0 || i > 0 && n.Start < end {
			return 0, 0, &pitch.InputError{What: "note", Value: fmt.Sprintf("%d (%s at beat %.6g)", i+1, n.Pitch, n.Start.Quarters()),
				Want: "notes that have a length and do not overlap"}
		}
		end = n.End()
		first, last = min(first, n.Start), max(last, end)
	}
	return first, last, nil
}
