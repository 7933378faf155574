package score

import (
	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
	"heddle/score/surface"
)

// An accidentalMark is the accidental printed before a note.
type accidentalMark struct {
	sign     surface.Sign // 0 for none
	courtesy bool         // in parentheses
}

// accidentalsOf decides the accidental of every event of every measure.
func accidentalsOf(ex *exercise.Exercise, measures []measure) [][]accidentalMark {
	marks := make([][]accidentalMark, len(measures))
	var holds pitch.Accidentals
	for i, m := range measures {
		marks[i] = make([]accidentalMark, len(m.events))
		for j, e := range m.events {
			if e.Note == line.Silence {
				continue
			}
			p := ex.Notes[e.Note].Pitch
			if e.TieFrom {
				holds.Tied(p)
			} else if printed, courtesy := holds.Next(p); printed {
				marks[i][j] = accidentalMark{surface.Accidental(p.Name.Accidental), courtesy}
			}
		}
		holds.BarLine()
	}
	return marks
}

// width returns the mark's width in staff spaces.
func (a accidentalMark) width() float64 {
	if a.sign == 0 {
		return 0
	}
	if a.courtesy {
		return a.sign.Width() + surface.ParenthesisLeft.Width() + surface.ParenthesisRight.Width()
	}
	return a.sign.Width()
}
