// Package strip draws what each note of a line does to the chord: a strip with
// a lane for each function, a name and a bar for roughness.
package strip

import (
	"fmt"
	"slices"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
	"heddle/score/surface"
)

// The strip in mm.
const (
	usualWidth   = 180.0
	labelWidth   = 21.0 // width of the lanes' names
	usualCell    = 6.4  // from note to note
	tightCell    = 5.5  // at the least, where that saves a row
	endMargin    = 1.0  // at the end of a row
	laneHeight   = 6.6
	figureRadius = 2.55
	tallestBar   = 9.0 // height of the roughest note's bar
	nameSize     = 2.9
	rowGap       = 6.0 // between rows
)

// lanesOf lists the functions of a line's notes from the outside in, the topmost
// first. Blue has a lane only where a note is blue.
func lanesOf(notes []exercise.Note) []pitch.Function {
	lanes := []pitch.Function{pitch.Outside, pitch.Avoid, pitch.Blue, pitch.Tension, pitch.ChordTone}
	if !slices.ContainsFunc(notes, func(n exercise.Note) bool { return n.Function == pitch.Blue }) {
		lanes = slices.Delete(lanes, 2, 3)
	}
	return lanes
}

// Options say how a strip is drawn.
type Options struct {
	Prefix  string // put before every id, so that several views share a page
	Theme   surface.Theme
	Width   float64 // mm; 0 for usualWidth
	NoNames bool    // note names are left out
	ByRow   bool    // in SVG, one element for each row instead of one for each note
	ByHeart bool    // a page hides the notes, so the description must not name them
}

// Draw returns what each note does to the chord: its degree in the lane of
// its function, chord tones lowest, so that the line is seen to leave and come
// home; beneath it the note's name and a bar for its roughness. The shape
// around the degree is that of the note's scale on the neck.
func Draw(ex *exercise.Exercise, opt Options) surface.Drawing {
	width := opt.Width
	if width <= 0 {
		width = usualWidth
	}
	s := strip{exercise: ex, options: opt, lanes: lanesOf(ex.Notes)}
	for _, n := range ex.Notes {
		s.roughest = max(s.roughest, n.Roughness)
	}
	s.cell, s.perRow = cells(width, len(ex.Notes))
	d := surface.Drawing{Width: width, Title: "What each note does to the chord", Description: s.describe(), Prefix: opt.Prefix, Theme: opt.Theme, ByRow: opt.ByRow}
	for first := 0; first < max(1, len(ex.Notes)); first += s.perRow {
		if first > 0 {
			d.Height += rowGap
		}
		d.Items = append(d.Items, s.row(first, min(first+s.perRow, len(ex.Notes)), d.Height)...)
		d.Height += s.rowHeight()
	}
	return d
}

type strip struct {
	exercise *exercise.Exercise
	options  Options
	lanes    []pitch.Function
	roughest float64
	cell     float64 // from note to note
	perRow   int
}

// Width returns a width in mm that holds the strip of so many notes in one
// row, with room between them.
func Width(notes int) float64 { return labelWidth + usualCell*float64(notes) + endMargin }

// cells returns the distance between notes and how many fit in a row: the usual
// distance, or a little less where that saves a row.
func cells(width float64, notes int) (cell float64, perRow int) {
	room := max(0, width-labelWidth)
	fits := func(cell float64) int { return max(1, int(room/cell)) }
	rows := func(perRow int) int { return (notes + perRow - 1) / perRow }
	perRow = fits(usualCell)
	if few := rows(fits(tightCell)); few < rows(perRow) {
		perRow = (notes + few - 1) / few
		return room / float64(perRow), perRow
	}
	return usualCell, perRow
}

func (s strip) laneY(lane int) float64 { return laneHeight * (float64(lane) + 0.5) }

func (s strip) rowHeight() float64 {
	return laneHeight*float64(len(s.lanes)) + nameSize + tallestBar + 4
}

// row draws notes from … to−1 with their lanes.
func (s strip) row(from, to int, top float64) []surface.Item {
	var items []surface.Item
	right := labelWidth + s.cell*float64(to-from)
	guides := surface.Rules{Width: 0.2, Paint: surface.Hair}
	for i, lane := range s.lanes {
		y := top + s.laneY(i)
		guides.Lines = append(guides.Lines, [2]surface.Point{surface.Pt(labelWidth, y), surface.Pt(right, y)})
		items = append(items, surface.Text{Text: lane.Sign() + " " + string(lane), At: surface.Pt(labelWidth-2, y+2.9*surface.CapHeight/2), Size: 2.9, Face: surface.Sans, Align: surface.Right, Paint: surface.Soft})
	}
	items = append([]surface.Item{guides}, items...)
	base := top + s.rowHeight() - 0.5
	items = append(items, surface.Text{Text: "roughness", At: surface.Pt(labelWidth-2, base), Size: 2.9, Face: surface.Sans, Align: surface.Right, Paint: surface.Soft})
	for i := from; i < to; i++ {
		x := labelWidth + s.cell*(float64(i-from)+0.5)
		items = append(items, s.note(i, x, top, base))
	}
	return items
}

// note draws one note's figure, degree, name and roughness.
func (s strip) note(i int, x, top, base float64) surface.Group {
	n := s.exercise.Notes[i]
	style := s.exercise.ScaleNumber(n.Scale)
	paint, label, fill, radius, width := surface.Soft, surface.Soft, surface.Paper, figureRadius*0.9, 0.3
	if style >= 0 {
		paint, radius, width = surface.Scale(style), figureRadius, 0.4
		fill, label = paint, surface.Paper
		if style > 0 {
			fill, label = surface.Paper, paint
		}
	}
	lane := slices.Index(s.lanes, n.Function)
	if lane < 0 {
		lane = len(s.lanes) - 1
	}
	at := surface.Pt(x, top+s.laneY(lane))
	figure := surface.ScaleFigure(style, at, radius, fill, paint, width)
	g := surface.Group{Class: surface.NoteClass(style), Notes: []int{i}, ID: "strip" + surface.NoteID(i), Items: []surface.Item{figure}}
	if n.Degree.Number > 0 {
		g.Items = append(g.Items, surface.Text{Text: n.Degree.Symbol(), At: surface.Pt(at.X, at.Y+2.6*surface.CapHeight/2), Size: 2.6, Face: surface.SansBold, Align: surface.Center, Paint: label})
	}
	nameY := top + laneHeight*float64(len(s.lanes)) + nameSize
	if !s.options.NoNames {
		g.Items = append(g.Items, surface.Text{Text: s.exercise.Naming.Name(n.Pitch.Name), At: surface.Pt(x, nameY), Size: nameSize, Face: surface.Sans, Align: surface.Center, Paint: paint})
	}
	height := 0.2
	if s.roughest > 0 {
		height = max(height, tallestBar*n.Roughness/s.roughest)
	}
	const half = 0.9
	g.Items = append(g.Items, surface.Shape{Fill: paint, Path: surface.Polygon(
		surface.Pt(x-half, base), surface.Pt(x+half, base), surface.Pt(x+half, base-height), surface.Pt(x-half, base-height))})
	return g
}

// describe gives each note's name, degree and function, except what is hidden.
func (s strip) describe() string {
	if s.options.ByHeart {
		return surface.UntilHeard
	}
	var out strings.Builder
	for i, n := range s.exercise.Notes {
		if i > 0 {
			out.WriteString("; ")
		}
		if !s.options.NoNames {
			out.WriteString(s.exercise.Naming.Name(n.Pitch.Name) + " ")
		}
		fmt.Fprintf(&out, "%s %s", n.Degree.Symbol(), n.Function)
	}
	return out.String()
}
