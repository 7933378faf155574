package surface

import "math"

// A Drawing is a display list: everything on one page or view, with its place.
type Drawing struct {
	Width, Height float64 // mm
	Title         string  // names the picture to a screen reader
	Description   string  // says what the picture shows
	Prefix        string  // put before every id, so that views share a page
	Theme         Theme
	ByRow         bool // one element for each row instead of one for each note, see [WritePageSVG]
	Items         []Item
}

// An Item is one thing to draw: [Rules], [Shape], [Disc], [Glyph], [Text] or a
// [Group] of items. Items are drawn in order, later ones over earlier ones.
type Item interface{ paint(surface) }

// A Point is a place on a drawing in mm, y downward.
type Point struct{ X, Y float64 }

// Pt returns the point at x, y.
func Pt(x, y float64) Point { return Point{x, y} }

// A Box is a rectangle with sides along the axes; the zero Box is empty.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// Rules are straight lines of one width and colour.
type Rules struct {
	Lines [][2]Point
	Width float64   // mm
	Dash  []float64 // lengths of dash and gap in mm; empty for a solid line
	Paint Paint
}

// A Shape is an outline, filled, stroked or both.
type Shape struct {
	Path   Path
	Fill   Paint
	Stroke Paint
	Width  float64 // of the stroke in mm
}

// A Disc is a circle, filled, stroked or both.
type Disc struct {
	Center Point
	Radius float64
	Fill   Paint
	Stroke Paint
	Width  float64   // of the stroke in mm
	Dash   []float64 // of the stroke
}

// A Glyph is a music sign with its origin at a point.
type Glyph struct {
	Sign  Sign
	At    Point
	Space float64 // mm to a staff space
	Paint Paint
}

// A Text is one line of text.
type Text struct {
	Text  string
	At    Point   // on the baseline, at the side Align says
	Size  float64 // mm to an em
	Face  Face
	Align Align
	Paint Paint
}

// A Group holds items that belong together.
type Group struct {
	Class string // for the style sheet of a page: "note", "staff", "spot"
	Notes []int  // indices of the exercise's notes that the group shows
	ID    string // unique within the view; empty for none
	Label string // read aloud instead of the items; empty to read the items
	Items []Item
}

// An Align says which part of a text is at its point.
type Align int

// The alignments.
const (
	Left Align = iota
	Center
	Right
)

// A Path is an outline of straight lines and cubic curves.
type Path []Segment

// A Segment moves, draws a line, draws a curve, or closes the outline.
type Segment struct {
	Op Op
	P  [3]Point // the last one used is where the segment ends
}

// An Op is what a segment does.
type Op uint8

// The segments: MoveTo and LineTo use one point, CurveTo three, Close none.
const (
	MoveTo Op = iota
	LineTo
	CurveTo
	Close
)

// Polygon returns the closed outline through the points.
func Polygon(points ...Point) Path {
	path := make(Path, 0, len(points)+1)
	for i, p := range points {
		op := LineTo
		if i == 0 {
			op = MoveTo
		}
		path = append(path, Segment{Op: op, P: [3]Point{p}})
	}
	return append(path, Segment{Op: Close})
}

// end returns the point where the segment ends.
func (s Segment) end() Point {
	if s.Op == CurveTo {
		return s.P[2]
	}
	return s.P[0]
}

// around returns the smallest box around points, with a margin.
func around(by float64, points ...Point) Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		b = Box{min(b.MinX, p.X), min(b.MinY, p.Y), max(b.MaxX, p.X), max(b.MaxY, p.Y)}
	}
	return Box{b.MinX - by, b.MinY - by, b.MaxX + by, b.MaxY + by}
}

// bounds returns a box around the path's points, control points included: a
// little wide where it curves.
func (p Path) bounds() Box {
	var points []Point
	for _, s := range p {
		switch s.Op {
		case MoveTo, LineTo:
			points = append(points, s.P[0])
		case CurveTo:
			points = append(points, s.P[:]...)
		}
	}
	if len(points) == 0 {
		return Box{}
	}
	return around(0, points...)
}

// left returns where the text begins.
func (t Text) left() float64 {
	switch t.Align {
	case Center:
		return t.At.X - t.Face.Width(t.Text, t.Size)/2
	case Right:
		return t.At.X - t.Face.Width(t.Text, t.Size)
	}
	return t.At.X
}

// Shift returns the items moved by a distance in mm.
func Shift(items []Item, dx, dy float64) []Item {
	move := func(p Point) Point { return Point{p.X + dx, p.Y + dy} }
	moved := make([]Item, len(items))
	for i, item := range items {
		switch it := item.(type) {
		case Rules:
			lines := make([][2]Point, len(it.Lines))
			for j, l := range it.Lines {
				lines[j] = [2]Point{move(l[0]), move(l[1])}
			}
			it.Lines = lines
			moved[i] = it
		case Shape:
			path := make(Path, len(it.Path))
			for j, s := range it.Path {
				for k := range s.P {
					s.P[k] = move(s.P[k])
				}
				path[j] = s
			}
			it.Path = path
			moved[i] = it
		case Disc:
			it.Center = move(it.Center)
			moved[i] = it
		case Glyph:
			it.At = move(it.At)
			moved[i] = it
		case Text:
			it.At = move(it.At)
			moved[i] = it
		case Group:
			it.Items = Shift(it.Items, dx, dy)
			moved[i] = it
		}
	}
	return moved
}
