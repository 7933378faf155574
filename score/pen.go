package score

// A pen draws in staff spaces from an origin on the drawing.
type pen struct {
	origin Point   // mm
	space  float64 // mm to a staff space
}

// at returns the place on the drawing.
func (p pen) at(x, y float64) Point {
	return Point{p.origin.X + x*p.space, p.origin.Y + y*p.space}
}

// moved returns the pen with its origin elsewhere, in staff spaces.
func (p pen) moved(x, y float64) pen { return pen{p.at(x, y), p.space} }

func (p pen) line(x1, y1, x2, y2, width float64, paint Paint) Rules {
	return Rules{Lines: [][2]Point{{p.at(x1, y1), p.at(x2, y2)}}, Width: width * p.space, Paint: paint}
}

func (p pen) dashed(x1, y1, x2, y2, width float64, dash []float64, paint Paint) Rules {
	r := p.line(x1, y1, x2, y2, width, paint)
	r.Dash = p.lengths(dash)
	return r
}

func (p pen) lengths(spaces []float64) []float64 {
	var mm []float64
	for _, s := range spaces {
		mm = append(mm, s*p.space)
	}
	return mm
}

func (p pen) sign(s Sign, x, y float64) Glyph {
	return Glyph{Sign: s, At: p.at(x, y), Space: p.space, Paint: Ink}
}

// centered draws a sign with the middle of its box at x.
func (p pen) centered(s Sign, x, y float64) Glyph {
	b := s.Box()
	return p.sign(s, x-(b.MinX+b.MaxX)/2, y)
}

func (p pen) text(text string, x, y, size float64, face Face, align Align, paint Paint) Text {
	return Text{Text: text, At: p.at(x, y), Size: size * p.space, Face: face, Align: align, Paint: paint}
}

func (p pen) shape(paint Paint, points ...Point) Shape {
	for i, q := range points {
		points[i] = p.at(q.X, q.Y)
	}
	return Shape{Path: polygon(points...), Fill: paint}
}

// bow draws a tie or slur between two points: thin at its ends, thicker in
// the middle, bulging by height (negative: upward).
func (p pen) bow(from, to Point, height, end, middle float64) Shape {
	reach := (to.X - from.X) * bowShoulder
	c1, c2 := Point{from.X + reach, from.Y + height}, Point{to.X - reach, to.Y + height}
	// The middle of a cubic lies 3/4 of the way to its handles, so handles
	// apart by 4/3 of the thickness give it there.
	half := middle / 2 * 4 / 3
	tip := end / 2
	curve := func(a, b, c Point) Segment {
		return Segment{CurveTo, [3]Point{p.at(a.X, a.Y), p.at(b.X, b.Y), p.at(c.X, c.Y)}}
	}
	move := func(op Op, x, y float64) Segment { return Segment{op, [3]Point{p.at(x, y)}} }
	return Shape{Fill: Ink, Path: Path{
		move(MoveTo, from.X, from.Y-tip),
		curve(Point{c1.X, c1.Y - half}, Point{c2.X, c2.Y - half}, Point{to.X, to.Y - tip}),
		move(LineTo, to.X, to.Y+tip),
		curve(Point{c2.X, c2.Y + half}, Point{c1.X, c1.Y + half}, Point{from.X, from.Y + tip}),
		{Op: Close},
	}}
}

// bowShoulder is how far in, as a part of its length, a bow's handles stand.
const bowShoulder = 0.28
