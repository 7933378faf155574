package score

import (
	"heddle/exercise"
	"heddle/line"
)

// A measure is one bar as it is written.
type measure struct {
	line.Bar
	events []line.Written
}

// finest is how often a whole note is halved for the shortest value that is
// drawn, a sixty-fourth. Anything shorter, left only where played notes fall
// together on the grid, is drawn as one.
const finest = 6

// measuresOf writes the exercise's notes into bars.
func measuresOf(ex *exercise.Exercise) []measure {
	meter := ex.Rhythm.Meter
	spans := spansOf(ex.Notes, line.PulseOf(meter))
	first, last := -max(0, ex.Rhythm.Pickup), ex.Length
	if len(spans) > 0 {
		first = min(first, spans[0].Start)
		last = max(last, spans[len(spans)-1].End)
	}
	bars := line.Bars(meter, first, last)
	measures := make([]measure, len(bars))
	for i, events := range line.Write(meter, bars, spans) {
		for j := range events {
			events[j].Value.Halvings = min(events[j].Value.Halvings, finest)
		}
		measures[i] = measure{bars[i], events}
	}
	return measures
}
