package surface

import "math"

// dashes cuts a line into dashes; an empty pattern leaves it whole.
func dashes(from, to Point, pattern []float64) [][2]Point {
	length := math.Hypot(to.X-from.X, to.Y-from.Y)
	total := 0.0
	for _, d := range pattern {
		total += d
	}
	if total <= 0 || length == 0 {
		return [][2]Point{{from, to}}
	}
	at := func(d float64) Point {
		t := min(d/length, 1)
		return Point{from.X + (to.X-from.X)*t, from.Y + (to.Y-from.Y)*t}
	}
	var cut [][2]Point
	for i, d := 0, 0.0; d < length; i++ {
		step := pattern[i%len(pattern)]
		if i%2 == 0 {
			cut = append(cut, [2]Point{at(d), at(d + step)})
		}
		d += step
	}
	return cut
}

// bar returns the outline of a straight line with square-cut ends.
func bar(from, to Point, width float64) Path {
	dx, dy := to.X-from.X, to.Y-from.Y
	length := math.Hypot(dx, dy)
	if length == 0 {
		return nil
	}
	nx, ny := -dy/length*width/2, dx/length*width/2
	return Polygon(
		Point{from.X + nx, from.Y + ny}, Point{from.X - nx, from.Y - ny},
		Point{to.X - nx, to.Y - ny}, Point{to.X + nx, to.Y + ny})
}

// curveSteps is how many straight pieces replace a curve in a stroke; outlines
// that are stroked are small.
const curveSteps = 12

// outlineStroke returns the filled outline of a path's stroke, its corners
// mitred by a square dot.
func outlineStroke(path Path, width float64) Path {
	var out Path
	var start, last Point
	line := func(to Point) {
		out = append(out, bar(last, to, width)...)
		out = append(out, circle(to, width/2, false)...)
		last = to
	}
	for _, s := range path {
		switch s.Op {
		case MoveTo:
			start, last = s.P[0], s.P[0]
		case LineTo:
			line(s.P[0])
		case CurveTo:
			from := last
			for i := 1; i <= curveSteps; i++ {
				line(onCurve(from, s.P, float64(i)/curveSteps))
			}
		case Close:
			if last != start {
				line(start)
			}
		}
	}
	return out
}

// onCurve returns the point of a cubic curve at t, 0 to 1.
func onCurve(from Point, p [3]Point, t float64) Point {
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{
		a*from.X + b*p[0].X + c*p[1].X + d*p[2].X,
		a*from.Y + b*p[0].Y + c*p[1].Y + d*p[2].Y,
	}
}

// arcs returns the outlines of a dashed circle's dashes.
func arcs(d Disc) Path {
	total := 0.0
	for _, step := range d.Dash {
		total += step
	}
	if total <= 0 {
		return nil
	}
	round := 2 * math.Pi * d.Radius
	at := func(along float64) Point {
		sin, cos := math.Sincos(along / d.Radius)
		return Point{d.Center.X + d.Radius*cos, d.Center.Y + d.Radius*sin}
	}
	var out Path
	for i, along := 0, 0.0; along < round; i++ {
		step := d.Dash[i%len(d.Dash)]
		if i%2 == 0 {
			const pieces = 4
			end := min(along+step, round)
			for k := range pieces {
				from := along + (end-along)*float64(k)/pieces
				out = append(out, bar(at(from), at(from+(end-along)/pieces), d.Width)...)
			}
		}
		along += step
	}
	return out
}
