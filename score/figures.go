package score

import "math"

// ringGap is how far outside its spot a root's ring stands, in radii.
const ringGap = 1.28

// figure draws the shape of one scale on a spot. The first of several scales
// has the spot; each further one is drawn around it.
func (n *neckView) figure(at Point, c claim, order, of int) []Item {
	paint := Scale(c.number)
	r := n.radius
	if of > 1 {
		r *= 0.84 + 0.27*float64(order) // inner ones give way to outer ones
	}
	line := max(0.3, n.radius*0.16)
	var items []Item
	if c.pitch.Name == c.scale.Root && order == 0 {
		items = append(items, figureOf(c.number, at, r*ringGap, Paper, paint, line*0.8))
	}
	fill := paint
	if c.number > 0 {
		fill = Paper
	}
	return append(items, figureOf(c.number, at, r, fill, paint, line))
}

// figureOf returns a scale's figure with about the area of a disc of the
// radius: disc, square, diamond, triangle, hexagon, triangle on its point.
// Lengths are in mm.
func figureOf(number int, at Point, r float64, fill, stroke Paint, width float64) Item {
	if number <= 0 {
		return Disc{Center: at, Radius: r, Fill: fill, Stroke: stroke, Width: width}
	}
	return Shape{Path: cornered(number, at, r), Fill: fill, Stroke: stroke, Width: width}
}

// cornered returns the outline of a superimposed scale's figure.
func cornered(number int, at Point, r float64) Path {
	corner := func(angle, reach float64) Point {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		return Point{at.X + reach*cos, at.Y + reach*sin}
	}
	switch (number - 1) % superimposedPaints {
	case 0:
		h := r * 0.93
		return polygon(Point{at.X - h, at.Y - h}, Point{at.X + h, at.Y - h}, Point{at.X + h, at.Y + h}, Point{at.X - h, at.Y + h})
	case 1:
		return polygon(corner(-90, 1.2*r), corner(0, 1.2*r), corner(90, 1.2*r), corner(180, 1.2*r))
	case 2:
		return polygon(corner(-90, 1.32*r), corner(30, 1.32*r), corner(150, 1.32*r))
	case 3:
		return polygon(corner(0, 1.1*r), corner(60, 1.1*r), corner(120, 1.1*r), corner(180, 1.1*r), corner(240, 1.1*r), corner(300, 1.1*r))
	}
	return polygon(corner(90, 1.32*r), corner(210, 1.32*r), corner(330, 1.32*r))
}
