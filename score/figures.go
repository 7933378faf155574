package score

import "heddle/score/surface"

import "math"

// ringGap is how far outside its spot a root's ring stands, in radii.
const ringGap = 1.28

// figure draws the shape of one scale on a spot. The first of several scales
// has the spot; each further one is drawn around it.
func (n *neckView) figure(at surface.Point, c claim, order, of int) []surface.Item {
	paint := surface.Scale(c.number)
	r := n.radius
	if of > 1 {
		r *= 0.84 + 0.27*float64(order) // inner ones give way to outer ones
	}
	line := max(0.3, n.radius*0.16)
	var items []surface.Item
	if c.pitch.Name == c.scale.Root && order == 0 {
		items = append(items, figureOf(c.number, at, r*ringGap, surface.Paper, paint, line*0.8))
	}
	fill := paint
	if c.number > 0 {
		fill = surface.Paper
	}
	return append(items, figureOf(c.number, at, r, fill, paint, line))
}

// figureOf returns a scale's figure with about the area of a disc of the
// radius: disc, square, diamond, triangle, hexagon, triangle on its point.
// Lengths are in mm.
func figureOf(number int, at surface.Point, r float64, fill, stroke surface.Paint, width float64) surface.Item {
	if number <= 0 {
		return surface.Disc{Center: at, Radius: r, Fill: fill, Stroke: stroke, Width: width}
	}
	return surface.Shape{Path: cornered(number, at, r), Fill: fill, Stroke: stroke, Width: width}
}

// cornered returns the outline of a superimposed scale's figure.
func cornered(number int, at surface.Point, r float64) surface.Path {
	corner := func(angle, reach float64) surface.Point {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		return surface.Pt(at.X+reach*cos, at.Y+reach*sin)
	}
	switch (number - 1) % 5 {
	case 0:
		h := r * 0.93
		return surface.Polygon(surface.Pt(at.X-h, at.Y-h), surface.Pt(at.X+h, at.Y-h), surface.Pt(at.X+h, at.Y+h), surface.Pt(at.X-h, at.Y+h))
	case 1:
		return surface.Polygon(corner(-90, 1.2*r), corner(0, 1.2*r), corner(90, 1.2*r), corner(180, 1.2*r))
	case 2:
		return surface.Polygon(corner(-90, 1.32*r), corner(30, 1.32*r), corner(150, 1.32*r))
	case 3:
		return surface.Polygon(corner(0, 1.1*r), corner(60, 1.1*r), corner(120, 1.1*r), corner(180, 1.1*r), corner(240, 1.1*r), corner(300, 1.1*r))
	}
	return surface.Polygon(corner(90, 1.32*r), corner(210, 1.32*r), corner(330, 1.32*r))
}
