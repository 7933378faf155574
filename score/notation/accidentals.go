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
	Courtesy   bool // a natural that only reminds
}

// mark decides the accidental of every event of every measure. An accidental
// holds for a line or space of the staff, so a note under an octave line counts
// where it is written.
func mark(ex *exercise.Exercise, measures []Measure) {
	var holds pitch.Accidentals
	octaves := Octaves(ex)
	for i, m := range measures {
		marks := make([]Mark, len(m.Events))
		for j, e := range m.Events {
			if e.Note == line.Silence {
				continue
			}
			p := ex.Notes[e.Note].Pitch
			if octaves[e.Note] {
				p.Octave--
			}
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
