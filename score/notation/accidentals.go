package notation

import (
	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// A Mark is what is printed before a note.
type Mark struct {
	Printed    bool
	Accidental int  // semitones of the note's letter; 0 for a natural
	Courtesy   bool // only a reminder
}

// mark decides the accidental of every event of every measure.
func mark(ex *exercise.Exercise, measures []Measure) {
	var holds pitch.Accidentals
	for i, m := range measures {
		marks := make([]Mark, len(m.Events))
		for j, e := range m.Events {
			if e.Note == line.Silence {
				continue
			}
			p := ex.Notes[e.Note].Pitch
			if e.TieFrom {
				holds.Tied(p)
			} else if printed, courtesy := holds.Next(p); printed {
				marks[j] = Mark{true, p.Name.Accidental, courtesy}
			}
		}
		measures[i].Marks = marks
		holds.BarLine()
	}
}
