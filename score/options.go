package score

import "heddle/score/surface"

// Options say how music is drawn. The zero Options draw everything, in colour
// on white.
type Options struct {
	Width   float64 // greatest width in mm; 0 for sheetWidth
	Space   float64 // mm to a staff space; 0 for 1.55, the size of printed parts
	Without Part    // what to leave out
	Theme   surface.Theme
	Title   string // for screen readers; empty for the exercise's sentence
	Prefix  string // put before every id, so that several views share a page
	Repeat  bool   // repeat signs around the line
	ByRow   bool   // in SVG, one element for each row of a system; otherwise each note's group holds everything of the note
	ByHeart bool   // a page hides the notes: nothing beside them gives them away
}

// A Part is something that can be left out of a drawing; parts add up with |.
type Part uint16

// The parts.
const (
	Tablature Part = 1 << iota
	NoteNames
	Degrees
	Roughness
	Fingers
	Strokes
	Brackets
	ChordSymbols
	BarNumbers
	TempoMark
	CourtesyNaturals
)

// printSpace is the staff space in mm of a printed part: a staff of 6.2 mm,
// between the rastral sizes 4 and 5 of common practice.
const printSpace = 1.55

// has reports whether a part is drawn.
func (o Options) has(p Part) bool { return o.Without&p == 0 }

// space returns the staff space in mm.
func (o Options) space() float64 {
	if o.Space > 0 {
		return min(max(o.Space, 0.5), 10)
	}
	return printSpace
}
