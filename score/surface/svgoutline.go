package surface

import (
	"math"
	"slices"
)

// A signSize is a sign at a size in mm to a staff space.
type signSize struct {
	sign  Sign
	space float64
}

// A signOutline is a sign's outline at a size, to be put anywhere: what follows
// its first point is relative to that.
type signOutline struct {
	start Point // mm from the sign's origin
	rest  []byte
}

// begin opens the path of what is filled with a paint, unless it is open.
func (s *svgWriter) begin(p Paint) {
	if s.begun && s.paint == p {
		return
	}
	s.end()
	s.body = append(s.body, `<path d="`...)
	s.begun, s.paint = true, p
}

// end ends the path that begin opened.
func (s *svgWriter) end() {
	if !s.begun {
		return
	}
	s.begun = false
	s.body = append(s.body, '"')
	s.fill(s.paint)
	s.body = append(s.body, "/>\n"...)
}

// bars writes rules as outlines to the path of their paint, and reports false
// for what can only be a stroke: dashes, and lines that are askew.
func (s *svgWriter) bars(r Rules) bool {
	for _, l := range r.Lines {
		if len(r.Dash) > 0 || l[0].X != l[1].X && l[0].Y != l[1].Y {
			return false
		}
	}
	s.begin(r.Paint)
	for _, l := range r.Lines {
		s.body = appendBar(s.body, l, r.Width)
	}
	return true
}

// outlineOf returns a sign's outline at a size, made once for a drawing.
func (s *svgWriter) outlineOf(sign Sign, space float64) signOutline {
	key := signSize{sign, space}
	o, known := s.signs[key]
	if !known {
		if path := scaled(music().glyphs[sign].outline, space); len(path) > 0 {
			o = signOutline{path[0].P[0], appendRelative(nil, path)}
		}
		s.signs[key] = o
	}
	return o
}

// appendRelative writes what follows an outline's first point, each point
// relative to the one before. Points are rounded before they are subtracted, so that errors do not add up.
func appendRelative(out []byte, path Path) []byte {
	var start, last [2]int64
	hundredths := func(p Point) [2]int64 {
		return [2]int64{int64(math.Round(p.X * 100)), int64(math.Round(p.Y * 100))}
	}
	to := func(p [2]int64) {
		out = appendOffset(out, p[0]-last[0])
		out = appendOffset(out, p[1]-last[1])
	}
	for i, seg := range path {
		end := hundredths(seg.end())
		switch seg.Op {
		case MoveTo:
			if i > 0 {
				out = append(out, 'm')
				to(end)
			}
			start, last = end, end
		case LineTo:
			switch {
			case end[1] == last[1]:
				out = appendOffset(append(out, 'h'), end[0]-last[0])
			case end[0] == last[0]:
				out = appendOffset(append(out, 'v'), end[1]-last[1])
			default:
				out = append(out, 'l')
				to(end)
			}
			last = end
		case CurveTo:
			out = append(out, 'c')
			for _, p := range seg.P {
				to(hundredths(p))
			}
			last = end
		case Close:
			out = append(out, 'z')
			last = start
		}
	}
	return out
}

// appendOffset writes hundredths of a mm, and a space before them unless a
// letter, a sign or, after a fraction, the point separates them from what is there.
func appendOffset(out []byte, n int64) []byte {
	at := len(out)
	out = appendHundredths(append(out, ' '), n)
	if before, next := out[at-1], out[at+1]; before >= 'a' || next == '-' || next == '.' && endsInFraction(out[:at]) {
		out = slices.Delete(out, at, at+1)
	}
	return out
}

// endsInFraction reports whether path data ends with a number with a point.
func endsInFraction(out []byte) bool {
	for i := len(out) - 1; i >= 0; i-- {
		if c := out[i]; c < '0' || c > '9' {
			return c == '.'
		}
	}
	return false
}

// appendBar writes a straight line along an axis as a filled outline. It turns
// as the outlines of the signs do: where two overlap that turn differently, the
// nonzero rule would leave a hole.
func appendBar(out []byte, line [2]Point, width float64) []byte {
	a, b := line[0], line[1]
	if a.Y == b.Y {
		a.Y, b.Y = a.Y-width/2, b.Y+width/2
	} else {
		a.X, b.X = a.X-width/2, b.X+width/2
	}
	left, right := min(a.X, b.X), max(a.X, b.X)
	top, bottom := min(a.Y, b.Y), max(a.Y, b.Y)
	out = appendPoint(append(out, 'M'), Point{left, top})
	out = appendNumber(append(out, 'V'), bottom)
	out = appendNumber(append(out, 'H'), right)
	return append(appendNumber(append(out, 'V'), top), 'Z')
}
