package score

import (
	"math"

	"heddle/score/surface"
	"heddle/touch"
)

// tabTouch draws the signs of one note on the tablature.
func (s *system) tabTouch(p pen, i int, t touch.Touch) (items []surface.Item) {
	e := surface.Engraving()
	h, at := &s.heads[i], s.tabPlace(i)
	text, face, size := s.cell(s.columns[h.column], tabRow)
	half := face.Width(text, size) / 2
	if t.Slide == touch.Into {
		items = append(items, p.line(at.X-half-slideReach, at.Y+0.55, at.X-half-0.2, at.Y-0.45, e.Stem, surface.Ink))
	}
	over, from := s.rows.tab-1.25, at.X-halfHead
	if t.Bend > 0 {
		tip := surface.Pt(at.X+half+0.2+bendReach*0.6, over)
		items = append(items, s.curve(p, surface.Pt(at.X+half+0.2, at.Y), surface.Pt(tip.X, tip.Y+arrowLong*0.8), e.Stem), arrow(p, tip, -1))
		items = append(items, p.text(bendLabels[t.Bend], tip.X, over-0.3, bendLabel, surface.Sans, surface.Center, surface.Ink))
		from = tip.X + 1.2
		if t.Release {
			end := surface.Pt(tip.X+bendReach*0.75, at.Y-0.55)
			items = append(items, s.curveDown(p, tip, surface.Pt(end.X, end.Y-arrowLong*0.8), e.Stem), arrow(p, end, 1))
			from = end.X + 0.6
		}
	}
	if t.Vibrato {
		items = append(items, s.wave(p, from, s.rows.tab-0.95, s.waveTo(h)))
	}
	return items
}

// waveTo returns where the wavy line of a head ends: before what comes next.
func (s *system) waveTo(h *head) float64 {
	to := s.right - 1
	for _, c := range s.columns[h.column+1:] {
		if c.barLine || !c.event.TieFrom {
			to = c.x - 1.2
			break
		}
	}
	return min(to, h.x+longestWave)
}

// wave draws a wavy line, two turns at the least.
func (s *system) wave(p pen, from, y, to float64) surface.Item {
	to = max(to, from+2*waveLong)
	var path surface.Path
	const step = waveLong / 8
	for x := from; x <= to; x += step {
		op := surface.LineTo
		if x == from {
			op = surface.MoveTo
		}
		at := p.at(x, y-waveHigh*math.Sin(2*math.Pi*(x-from)/waveLong))
		path = append(path, surface.Segment{Op: op, P: [3]surface.Point{at}})
	}
	return surface.Shape{Path: path, Stroke: surface.Ink, Width: 1.25 * surface.Engraving().Stem * p.space}
}

// curve draws a line that begins level and ends upright; curveDown begins upright.
func (s *system) curve(p pen, from, to surface.Point, width float64) surface.Shape {
	return bent(p, from, surface.Pt((from.X+2*to.X)/3, from.Y), surface.Pt(to.X, (2*from.Y+to.Y)/3), to, width)
}

func (s *system) curveDown(p pen, from, to surface.Point, width float64) surface.Shape {
	return bent(p, from, surface.Pt((from.X+2*to.X)/3, from.Y), surface.Pt(to.X, from.Y+0.3), to, width)
}

func bent(p pen, from, c1, c2, to surface.Point, width float64) surface.Shape {
	at := func(q surface.Point) surface.Point { return p.at(q.X, q.Y) }
	return surface.Shape{Stroke: surface.Ink, Width: width * p.space, Path: surface.Path{
		{Op: surface.MoveTo, P: [3]surface.Point{at(from)}},
		{Op: surface.CurveTo, P: [3]surface.Point{at(c1), at(c2), at(to)}},
	}}
}

// arrow draws an arrowhead with its tip at a point: upward for −1, downward for 1.
func arrow(p pen, tip surface.Point, direction float64) surface.Shape {
	base := tip.Y - direction*arrowLong
	return p.shape(surface.Ink, tip, surface.Pt(tip.X-arrowHalf, base), surface.Pt(tip.X+arrowHalf, base))
}
