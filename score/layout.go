package score

import (
	"strconv"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/pitch"
	"heddle/score/notation"
	"heddle/score/surface"
)

// A layout is an exercise written out: its bars, accidentals and columns,
// before it is cut into systems. Its unit is the staff space.
type layout struct {
	exercise *exercise.Exercise
	options  Options
	clef     clef
	measures []notation.Measure
	octaves  []bool // of each note, whether it is under an octave line
	columns  []column
	roughest float64
}

// Sizes of text and distances, in staff spaces.
const (
	tabSize    = 2.0
	nameSize   = 1.8
	degreeSize = 1.55
	fingerSize = 1.45
	strokeSize = 1.45
	labelSize  = 1.5
	chordSize  = 2.3
	chordGap   = 1.2

	accidentalGap = 0.28
	dotGap        = 0.38
)

// newLayout writes an exercise into bars and columns.
func newLayout(ex *exercise.Exercise, opt Options) *layout {
	l := &layout{exercise: ex, options: opt, clef: clefOf(ex.Instrument)}
	l.measures = notation.Measures(ex)
	l.octaves = notation.Octaves(ex)
	for _, n := range ex.Notes {
		l.roughest = max(l.roughest, n.Roughness)
	}
	l.columns = l.columnsOf()
	return l
}

// style returns the number of a note's scale: 0 home, 1 the first
// superimposed; −1 for a note that belongs to none.
func (l *layout) style(note int) int { return l.exercise.ScaleNumber(l.exercise.Notes[note].Scale) }

// paint returns the colour of a note's labels.
func (l *layout) paint(note int) surface.Paint {
	if s := l.style(note); s >= 0 {
		return surface.Scale(s)
	}
	return surface.Soft
}

// cell returns what a row shows in a column; empty for nothing.
func (l *layout) cell(c column, r row) (text string, face surface.Face, size float64) {
	e := c.event
	if e.Note == line.Silence || c.barLine {
		return "", surface.Sans, 0
	}
	n := l.exercise.Notes[e.Note]
	switch {
	case r == tabRow && l.options.has(Tablature):
		if e.TieFrom && e.Start != l.measures[c.measure].Start {
			return "", surface.SansBold, tabSize
		}
		if e.TieFrom || n.Touch.Ghost {
			return "(" + strconv.Itoa(n.Fret) + ")", surface.SansBold, tabSize
		}
		return strconv.Itoa(n.Fret), surface.SansBold, tabSize
	case e.TieFrom:
		return "", surface.Sans, 0
	case r == strokeRow && l.options.has(Strokes):
		return strokeLetters[n.Stroke], surface.Sans, strokeSize
	case r == fingerRow && l.options.has(Fingers):
		return strconv.Itoa(n.Finger), surface.Sans, fingerSize
	case r == nameRow && l.options.has(NoteNames):
		return l.exercise.Naming.Name(n.Pitch.Name), surface.Sans, nameSize
	case r == degreeRow && l.options.has(Degrees) && n.Degree.Number > 0:
		return degreeText(n), surface.Sans, degreeSize
	}
	return "", surface.Sans, 0
}

// degreeText is a note's degree with the sign of its function, which chord tones
// do without.
func degreeText(n exercise.Note) string {
	if n.Function == pitch.ChordTone {
		return n.Degree.Symbol()
	}
	return n.Degree.Symbol() + n.Function.Sign()
}

// strokeLetters are the letters for strokes of the fretting hand; those of the
// picking hand have signs, see pickSigns.
var strokeLetters = map[finger.Stroke]string{
	finger.HammerOn: "H", finger.PullOff: "P", finger.Slide: "sl",
}
