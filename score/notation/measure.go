package notation

import (
	"heddle/exercise"
	"heddle/line"
)

// A Measure is one bar as it is written.
type Measure struct {
	line.Bar
	Events []line.Written
	Marks  []Mark // one for each event
}

// finest is how often a whole note is halved for the shortest value that is
// drawn, a sixty-fourth. Anything shorter, left only where played notes fall
// together on the grid, is drawn as one.
const finest = 6

// Measures writes the exercise's notes into bars.
func Measures(ex *exercise.Exercise) []Measure {
	meter := ex.Rhythm.Meter
	spans := spansOf(ex.Notes, line.PulseOf(meter))
	first, last := -max(0, ex.Rhythm.Pickup), ex.Length
	if len(spans) > 0 {
		first = min(first, spans[0].Start)
		last = max(last, spans[len(spans)-1].End)
	}
	bars := line.Bars(meter, first, last)
	measures := make([]Measure, len(bars))
	for i, events := range line.Write(meter, bars, spans) {
		for j := range events {
			events[j].Value.Halvings = min(events[j].Value.Halvings, finest)
		}
		measures[i] = Measure{Bar: bars[i], Events: events}
	}
	mark(ex, measures)
	return measures
}
