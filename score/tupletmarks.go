package score

import (
	"math"

	"heddle/line"
	"heddle/score/surface"
)

// A tupletMark is the number of a tuplet and its bracket.
type tupletMark struct {
	number    int
	from, to  float64 // x of the outer edges
	y0, y1    float64 // of the bracket, or of the edge that the number is placed by
	above     bool
	bracketed bool
	notes     []int // of the tuplet
}

const (
	tupletGap       = 0.45 // between a beam or the staff and the number
	tupletHook      = 0.7
	tupletFigureGap = 0.3  // between a figure and its bracket
	tupletMargin    = 1.15 // between notes and a bracket, whose number is half as high again
)

// tupletMarksOf places the numbers of the system's tuplets outside the staff:
// over the beam where one joins all of it, else in a bracket.
func (s *system) tupletMarksOf() []tupletMark {
	var marks []tupletMark
	for i := 0; i < len(s.columns); {
		t := s.columns[i].event.Tuplet
		if s.columns[i].barLine || t == nil {
			i++
			continue
		}
		j := i + 1
		for j < len(s.columns) && !s.columns[j].barLine && s.columns[j].event.Tuplet == t {
			j++
		}
		marks = append(marks, s.tupletMark(t, i, j))
		i = j
	}
	return marks
}

// tupletMark places the number of the tuplet over columns from … to−1.
func (s *system) tupletMark(t *line.Tuplet, from, to int) tupletMark {
	heads := s.headsBetween(from, to)
	m := tupletMark{number: t.Actual, above: true, notes: joinedNotes(heads)}
	if len(heads) == to-from && heads[0].beam != nil && heads[0].beam == heads[len(heads)-1].beam {
		b := heads[0].beam
		m.above = b.up
		m.from, m.to = heads[0].stem, heads[len(heads)-1].stem
		m.y0 = b.at((m.from + m.to) / 2)
		m.y1 = m.y0
		return m
	}
	m.bracketed = true
	m.from, m.to = s.columns[from].x-halfHead, s.columns[to-1].x+halfHead
	up := 0
	for _, h := range heads {
		if h.up {
			up++
		} else {
			up--
		}
	}
	m.above = up >= 0
	edge := -tupletMargin // clear of the staff
	if !m.above {
		edge = staffHeight + tupletMargin
	}
	for i := range heads {
		top, bottom := heads[i].reach()
		if m.above {
			edge = min(edge, top-tupletMargin)
		} else {
			edge = max(edge, bottom+tupletMargin)
		}
	}
	m.y0, m.y1 = edge, edge
	return m
}

// headsBetween returns the system's heads in columns from … to−1.
func (s *system) headsBetween(from, to int) []*head {
	var heads []*head
	for i := range s.heads {
		if c := s.heads[i].column; c >= from && c < to {
			heads = append(heads, &s.heads[i])
		}
	}
	return heads
}

// numberSigns returns the digits and their whole width.
func (m tupletMark) numberSigns() (signs []surface.Sign, width float64) {
	signs = surface.Digits(surface.TupletDigit, m.number)
	for _, sign := range signs {
		width += sign.Width()
	}
	return signs, width
}

// baseline returns the baseline of the digits.
func (m tupletMark) baseline() float64 {
	height := -surface.TupletDigit.Box().MinY
	y := (m.y0 + m.y1) / 2
	switch {
	case m.bracketed:
		return y + height/2
	case m.above:
		return min(y, 0) - tupletGap
	}
	return max(y, staffHeight) + tupletGap + height
}

// reach returns the highest and lowest y of the mark.
func (m tupletMark) reach() (top, bottom float64) {
	height := -surface.TupletDigit.Box().MinY
	base := m.baseline()
	return math.Min(base-height, min(m.y0, m.y1)), math.Max(base, max(m.y0, m.y1))
}

func (m tupletMark) draw(p pen) []surface.Item {
	signs, width := m.numberSigns()
	middle := (m.from + m.to) / 2
	x := middle - width/2
	var items []surface.Item
	for _, sign := range signs {
		items = append(items, p.sign(sign, x-sign.Box().MinX, m.baseline()))
		x += sign.Width()
	}
	if !m.bracketed {
		return items
	}
	hook := tupletHook
	if !m.above {
		hook = -hook
	}
	gap := width/2 + tupletFigureGap
	w := surface.Engraving().TupletBracket
	rules := surface.Rules{Width: w * p.space, Paint: surface.Ink}
	add := func(x1, y1, x2, y2 float64) {
		rules.Lines = append(rules.Lines, [2]surface.Point{p.at(x1, y1), p.at(x2, y2)})
	}
	add(m.from, m.y0+hook, m.from, m.y0)
	add(m.from-w/2, m.y0, middle-gap, m.y0)
	add(middle+gap, m.y1, m.to+w/2, m.y1)
	add(m.to, m.y1, m.to, m.y1+hook)
	return append(items, rules)
}
