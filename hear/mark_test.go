package hear

import (
	"heddle/exercise"
	"heddle/line"
)

// markedLine is a falling line of so many eighths and a flawless take of it.
func markedLine(n int) (*exercise.Exercise, []Heard) {
	ex := &exercise.Exercise{Tempo: 120, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	var heard []Heard
	for i := range n {
		key := 77 - i%3*2 - i/3%9
		ex.Notes = append(ex.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(key), Group: i / 3, Start: line.Beat(480 * i), Duration: 480}})
		on := 0.5 + 0.25*float64(i)
		heard = append(heard, Heard{OnsetS: on, OffsetS: on + 0.2, MIDI: float64(key), Confidence: 0.99, Level: -20})
	}
	return ex, heard
}
