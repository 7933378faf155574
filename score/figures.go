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
		ring := shapeOf(c.number, at, r*ringGap)
		items = append(items, Shape{Path: ring, Stroke: paint, Fill: Paper, Width: line * 0.8})
	}
	s := Shape{Path: shapeOf(c.number, at, r), Fill: paint, Stroke: paint, Width: line}
	if c.number > 0 {
		s.Fill = Paper
	}
	return append(items, s)
}

// shapeOf returns the outline of a scale's figure with about the area of a
// disc of the radius: disc, square, diamond, triangle.
func shapeOf(number int, at Point, r float64) Path {
	corner := func(angle, reach float64) Point {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		return Point{at.X + reach*cos, at.Y + reach*sin}
	}
	if number <= 0 {
		return circle(at, r, false)
	}
	switch (number - 1) % superimposedPaints {
	case 0:
		h := r * 0.93
		return polygon(Point{at.X - h, at.Y - h}, Point{at.X + h, at.Y - h}, Point{at.X + h, at.Y + h}, Point{at.X - h, at.Y + h})
	case 1:
		return polygon(corner(-90, 1.2*r), corner(0, 1.2*r), corner(90, 1.2*r), corner(180, 1.2*r))
	}
	return polygon(corner(-90, 1.32*r), corner(30, 1.32*r), corner(150, 1.32*r))
}
