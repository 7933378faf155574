package notefile

import (
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// A bar is one measure of the page.
type bar struct {
	Start, End line.Beat
	Downbeat   line.Beat // where the whole bar would begin; before Start in a pickup
	Number     string
	Implicit   bool // a pickup, which is not counted
	Meter      line.Meter
}

// maxBars bounds what is written: ten hours of 4/4 at 60, far beyond any
// exercise, so that an end in the far future is an error and not a full disk.
const maxBars = 9000

// barsOf cuts an exercise in bars, from its pickup to the end of the bar in
// which it ends.
func barsOf(ex *exercise.Exercise) ([]bar, error) {
	m := ex.Rhythm.Meter
	if err := m.Check(); err != nil {
		return nil, err
	}
	first, last, err := extent(ex)
	if err != nil {
		return nil, err
	}
	length := m.Bar()
	if (last-first)/length >= maxBars {
		return nil, &pitch.InputError{What: "length", Value: strconv.Itoa(int((last - first) / length)),
			Want: fmt.Sprintf("at most %d bars", maxBars)}
	}
	var bars []bar
	if first < 0 {
		bars = pickupBars(first, m)
	}
	for at := line.Beat(0); at < last || at == 0; at += length {
		bars = append(bars, bar{Start: at, End: at + length, Downbeat: at, Number: strconv.Itoa(int(at/length) + 1), Meter: m})
	}
	return bars, nil
}

// pickupBars returns the bars before the first bar line, the first of them no
// longer than it must be. It is numbered 0, as is common practice.
func pickupBars(first line.Beat, m line.Meter) []bar {
	length := m.Bar()
	var bars []bar
	for end := line.Beat(0); end > first; end -= length {
		b := bar{Start: max(end-length, first), End: end, Downbeat: end - length, Number: "0", Implicit: true, Meter: m}
		if end < 0 {
			b.Number = "X" + strconv.Itoa(int(-end/length))
		}
		b.Start = pickupStart(b)
		bars = append([]bar{b}, bars...)
	}
	return bars
}

// pickupStart moves the beginning of a pickup that can't be written with plain
// values back to its beat, so that the tuplet it stands in is whole.
func pickupStart(b bar) line.Beat {
	at := edges(b.Downbeat, pulse(b.Meter))
	for i := len(at) - 2; i >= 0; i-- {
		if at[i] <= b.Start {
			if (b.Start-at[i])%grain != 0 {
				return at[i]
			}
			break
		}
	}
	return b.Start
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

// spansOf returns the notes of an exercise and the rests between them, from
// the first bar's beginning to the last one's end.
func spansOf(ex *exercise.Exercise, bars []bar) []span {
	at := bars[0].Start
	spans := make([]span, 0, 2*len(ex.Notes)+1)
	for i, n := range ex.Notes {
		if n.Start > at {
			spans = append(spans, span{at, n.Start, rest})
		}
		at = n.End()
		spans = append(spans, span{n.Start, at, i})
	}
	if end := bars[len(bars)-1].End; at < end {
		spans = append(spans, span{at, end, rest})
	}
	return spans
}
