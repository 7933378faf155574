package score

import "heddle/score/surface"

// A pen draws in staff spaces from an origin on the drawing.
type pen struct {
	origin surface.Point // mm
	space  float64       // mm to a staff space
}

// at returns the place on the drawing.
func (p pen) at(x, y float64) surface.Point {
	return surface.Pt(p.origin.X+x*p.space, p.origin.Y+y*p.space)
}

// moved returns the pen with its origin elsewhere, in staff spaces.
func (p pen) moved(x, y float64) pen { return pen{p.at(x, y), p.space} }

func (p pen) line(x1, y1, x2, y2, width float64, paint surface.Paint) surface.Rules {
	return surface.Rules{Lines: [][2]surface.Point{{p.at(x1, y1), p.at(x2, y2)}}, Width: width * p.space, Paint: paint}
}

func (p pen) dashed(x1, y1, x2, y2, width float64, dash []float64, paint surface.Paint) surface.Rules {
	r := p.line(x1, y1, x2, y2, width, paint)
	r.Dash = dash
	return r
}

func (p pen) sign(s surface.Sign, x, y float64) surface.Glyph {
	return surface.Glyph{Sign: s, At: p.at(x, y), Space: p.space, Paint: surface.Ink}
}

// centered draws a sign with the middle of its box at x.
func (p pen) centered(s surface.Sign, x, y float64) surface.Glyph {
	b := s.Box()
	return p.sign(s, x-(b.MinX+b.MaxX)/2, y)
}

func (p pen) text(text string, x, y, size float64, face surface.Face, align surface.Align, paint surface.Paint) surface.Text {
	return surface.Text{Text: text, At: p.at(x, y), Size: size * p.space, Face: face, Align: align, Paint: paint}
}

func (p pen) shape(paint surface.Paint, points ...surface.Point) surface.Shape {
	for i, q := range points {
		points[i] = p.at(q.X, q.Y)
	}
	return surface.Shape{Path: surface.Polygon(points...), Fill: paint}
}

// bow draws a tie or slur between two points: thin at its ends, thicker in
// the middle, bulging by height (negative: upward).
func (p pen) bow(from, to surface.Point, height, end, middle float64) surface.Shape {
	reach := (to.X - from.X) * bowShoulder
	c1, c2 := surface.Pt(from.X+reach, from.Y+height), surface.Pt(to.X-reach, to.Y+height)
	// The middle of a cubic is 3/4 of the way to its handles, so handles that
	// are 4/3 of the thickness apart give that thickness there.
	half := middle / 2 * 4 / 3
	tip := end / 2
	curve := func(a, b, c surface.Point) surface.Segment {
		return surface.Segment{Op: surface.CurveTo, P: [3]surface.Point{p.at(a.X, a.Y), p.at(b.X, b.Y), p.at(c.X, c.Y)}}
	}
	move := func(op surface.Op, x, y float64) surface.Segment {
		return surface.Segment{Op: op, P: [3]surface.Point{p.at(x, y)}}
	}
	return surface.Shape{Fill: surface.Ink, Path: surface.Path{
		move(surface.MoveTo, from.X, from.Y-tip),
		curve(surface.Pt(c1.X, c1.Y-half), surface.Pt(c2.X, c2.Y-half), surface.Pt(to.X, to.Y-tip)),
		move(surface.LineTo, to.X, to.Y+tip),
		curve(surface.Pt(c2.X, c2.Y+half), surface.Pt(c1.X, c1.Y+half), surface.Pt(from.X, from.Y+tip)),
		{Op: surface.Close},
	}}
}

// bowShoulder is the distance of a bow's handles from its ends, as a part of its
// length.
const bowShoulder = 0.28
