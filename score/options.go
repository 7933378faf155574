package score

import "heddle/score/surface"

// Options say how an exercise is drawn. The zero Options draw everything, in
// colour on white, for an A4 page.
type Options struct {
	Page    Page
	Width   float64 // greatest width in mm of a view on a screen; 0 for the view's own
	Space   float64 // mm to a staff space; 0 for 1.55, the size of printed parts
	Without Part    // what to leave out
	Theme   surface.Theme
	Title   string // above the first page; empty for none
	Prefix  string // put before every id, so that several views share a page
	Repeat  bool   // repeat signs around the line
	Section int    // with changes, which home scale (from 0) the neck shows
	Labels  Labels // what stands on the neck's spots
	Whole   bool   // the whole neck instead of the part around the hand
	ByRow   bool   // in SVG, one element for each row of a system or strip; else each note's group holds all that is its own
	ByHeart bool   // a page hides the notes: nothing beside them tells what they are
}

// A Page is a size of paper.
type Page int

// The sizes of paper.
const (
	A4     Page = iota // 210 by 297 mm (ISO 216)
	Letter             // 8.5 by 11 inches (ANSI/ASME Y14.1)
)

// size returns width and height in mm.
func (p Page) size() (width, height float64) {
	if p == Letter {
		return 8.5 * surface.MMPerInch, 11 * surface.MMPerInch
	}
	return 210, 297
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
	Sentence
	NeckDiagram
	Footer
)

// Labels say what stands on the spots of a neck.
type Labels int

// The labels.
const (
	NameLabels   Labels = iota // note names
	DegreeLabels               // degrees of the spot's own scale
	NoLabels                   // nothing
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
