package surface

// A surface is what a writer draws on. Coordinates are those of the drawing,
// in mm from the top left corner. A surface draws everything it is given, in
// order; None draws nothing; open and close come in pairs. It never fails: a
// writer reports errors when it has the whole picture.
//
// The tests in writers_test.go hold every writer to this.
type surface interface {
	rules(Rules)
	shape(Shape)
	disc(Disc)
	glyph(Glyph)
	text(Text)
	open(Group)
	close(Group)
}

// paintItems puts the items on the surface in order.
func paintItems(s surface, items []Item) {
	for _, item := range items {
		item.paint(s)
	}
}

func (r Rules) paint(s surface) { s.rules(r) }
func (p Shape) paint(s surface) { s.shape(p) }
func (d Disc) paint(s surface)  { s.disc(d) }
func (g Glyph) paint(s surface) { s.glyph(g) }
func (t Text) paint(s surface)  { s.text(t) }

func (g Group) paint(s surface) {
	s.open(g)
	paintItems(s, g.Items)
	s.close(g)
}

// circleHandle is the length, in radii, of the handles of a cubic curve
// that draws a quarter of a circle: 4/3 (√2 − 1), which is true to
// 0.03 %.
const circleHandle = 0.5522847498

// circle returns a circle's outline, in the other direction if it is a hole.
func circle(c Point, r float64, hole bool) Path {
	k := circleHandle * r
	at := func(x, y float64) Point {
		if hole {
			return Point{c.X + x, c.Y - y}
		}
		return Point{c.X + x, c.Y + y}
	}
	return Path{
		{MoveTo, [3]Point{at(r, 0)}},
		{CurveTo, [3]Point{at(r, k), at(k, r), at(0, r)}},
		{CurveTo, [3]Point{at(-k, r), at(-r, k), at(-r, 0)}},
		{CurveTo, [3]Point{at(-r, -k), at(-k, -r), at(0, -r)}},
		{CurveTo, [3]Point{at(k, -r), at(r, -k), at(r, 0)}},
		{Op: Close},
	}
}
