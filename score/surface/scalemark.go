package surface

import (
	"math"
	"strconv"
)

// The scales of a line are told apart by colour ([Scale]) and by something else
// as well: a figure on the neck, a line over the staff. Numbers count from 0,
// home; the first superimposed scale is 1. Beyond superimposedPaints they start
// again from 1.

// scaleDashes are the lines of the scales, as lengths of dash and gap: home
// solid, the first superimposed dashed, the second dotted, the third dashed and
// dotted, the fourth in long dashes, the fifth dashed and twice dotted.
var scaleDashes = [1 + superimposedPaints][]float64{
	nil,
	{0.95, 0.6},
	{0.2, 0.42},
	{0.95, 0.4, 0.2, 0.4},
	{2, 0.6},
	{0.95, 0.4, 0.2, 0.4, 0.2, 0.4},
}

// scaleTurn returns the number that a scale's marks are taken from.
func scaleTurn(number int) int {
	if number <= 0 {
		return 0
	}
	return 1 + (number-1)%superimposedPaints
}

// ScaleDash returns the dash of a scale's line, its lengths counted in a unit
// in mm; nil for a solid line.
func ScaleDash(number int, unit float64) []float64 {
	var mm []float64
	for _, length := range scaleDashes[scaleTurn(number)] {
		mm = append(mm, length*unit)
	}
	return mm
}

// ScaleFigure returns a scale's figure with about the area of a disc of the
// radius: disc, square, diamond, triangle, hexagon, triangle on its point.
// Lengths are in mm.
func ScaleFigure(number int, at Point, r float64, fill, stroke Paint, width float64) Item {
	turn := scaleTurn(number)
	if turn == 0 {
		return Disc{Center: at, Radius: r, Fill: fill, Stroke: stroke, Width: width}
	}
	f := scaleFigures[turn-1]
	points := make([]Point, f.corners)
	for i := range points {
		sin, cos := math.Sincos((f.first + 360*float64(i)/float64(f.corners)) * math.Pi / 180)
		points[i] = Pt(at.X+f.reach*r*cos, at.Y+f.reach*r*sin)
	}
	return Shape{Path: Polygon(points...), Fill: fill, Stroke: stroke, Width: width}
}

// scaleFigures are regular polygons: how many corners, the angle in degrees of
// the first (0 to the right, 90 down), and the distance of the corners from the
// middle in radii, chosen so that all figures look equally large.
var scaleFigures = [superimposedPaints]struct {
	corners      int
	first, reach float64
}{
	{4, 45, 0.93 * math.Sqrt2},
	{4, 0, 1.2},
	{3, -90, 1.32},
	{6, 0, 1.1},
	{3, 90, 1.32},
}

// Class and id of a group, which the style sheet and scripts of a page know.

// ScaleClass returns the class of a scale's group. It is not that of a paint:
// what the group holds keeps its own colour.
func ScaleClass(number int) string { return "scale" + strconv.Itoa(number) }

// NoteClass returns the class of a note's group by the number of its scale:
// "note scale0" for home, "note chromatic" for a note of no scale (−1).
func NoteClass(number int) string {
	if number < 0 {
		return "note chromatic"
	}
	return "note " + ScaleClass(number)
}

// NoteID returns a note's id within a view.
func NoteID(note int) string { return "n" + strconv.Itoa(note) }

// UntilHeard describes notes that are hidden.
const UntilHeard = "The notes are hidden until they are heard."
