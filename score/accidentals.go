package score

import (
	"heddle/exercise"
	"heddle/pitch"
)

// An accidentalMark is the accidental printed before a note.
type accidentalMark struct {
	sign     Sign // 0 for none
	courtesy bool // in parentheses
}

// A staffPlace is a line or space: an accidental holds for it alone.
type staffPlace struct {
	letter pitch.Letter
	octave int
}

// accidentalsOf decides the accidental of every event of every measure.
//
// There is no key signature. An accidental holds for its own line or space to
// the bar line. A note is given a courtesy accidental where a reader might
// carry one over: on the same place in the bar after, and on the same letter
// in another octave of the bar. A tied note needs none.
func accidentalsOf(ex *exercise.Exercise, measures []measure) [][]accidentalMark {
	marks := make([][]accidentalMark, len(measures))
	before := map[staffPlace]int{}
	for i, m := range measures {
		now := map[staffPlace]int{}
		marks[i] = make([]accidentalMark, len(m.events))
		for j, e := range m.events {
			if e.note == rest {
				continue
			}
			p := ex.Notes[e.note].Pitch
			at := staffPlace{p.Name.Letter, p.Octave}
			if e.tied {
				if _, set := now[at]; !set && p.Name.Accidental != 0 {
					before[at] = p.Name.Accidental
				}
				continue
			}
			marks[i][j] = mark(p.Name.Accidental, at, now, before)
			now[at] = p.Name.Accidental
		}
		before = now
	}
	return marks
}

// mark decides one accidental from what the bar and the bar before have set.
func mark(alter int, at staffPlace, now, before map[staffPlace]int) accidentalMark {
	current, set := now[at]
	if alter != current {
		return accidentalMark{sign: accidental(alter)}
	}
	if set {
		return accidentalMark{}
	}
	if before[at] != 0 {
		return accidentalMark{sign: accidental(alter), courtesy: true}
	}
	for place, other := range now {
		if place.letter == at.letter && other != alter {
			return accidentalMark{sign: accidental(alter), courtesy: true}
		}
	}
	return accidentalMark{}
}

// width returns the mark's width in staff spaces.
func (a accidentalMark) width() float64 {
	if a.sign == 0 {
		return 0
	}
	if a.courtesy {
		return a.sign.width() + ParenthesisLeft.width() + ParenthesisRight.width()
	}
	return a.sign.width()
}
