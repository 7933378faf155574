package score

import (
	"slices"

	"heddle/line"
	"heddle/score/surface"
)

// A system is one line of music over the whole width, all rows of it, laid
// out in staff spaces from the staff's top left corner.
type system struct {
	*layout
	columns     []column
	first, last bool // of the exercise
	right       float64
	heads       []head
	beams       []*beam
	tuplets     []tupletMark
	bows        []bow
	octaveLines []octaveLine
	brackets    []bracketMark
	top, bottom float64 // how far the staff's notes and marks reach
	rows        rowPlaces
	above       abovePlaces
	notes       [][]surface.Item
}

// prefix returns the width of what comes before a system's first note.
func (l *layout) prefix(first bool) float64 {
	w := clefMargin + l.clef.sign.Width() + prefixAfter
	if first {
		w += l.timeWidth() + prefixAfter
		if l.options.Repeat {
			e := surface.Engraving()
			w += e.ThickBar + e.BarSeparation + e.ThinBar + e.RepeatDots + surface.RepeatDots.Width() + 0.6
		}
	}
	return w
}

// timeWidth returns the width of the time signature.
func (l *layout) timeWidth() float64 {
	w := 0.0
	for _, n := range [2]int{l.exercise.Rhythm.Meter.Beats, l.exercise.Rhythm.Meter.Unit} {
		sum := 0.0
		for _, d := range surface.Digits(surface.TimeDigit, n) {
			sum += d.Width()
		}
		w = max(w, sum)
	}
	return w
}

// systems cuts the line into systems of a width in staff spaces.
func (l *layout) systems(width float64) []*system {
	var out []*system
	start, stretches := 0, 0.0
	for _, end := range systemsOf(l.columns, width, l.prefix(false), l.prefix(true)) {
		s := &system{layout: l, columns: slices.Clone(l.columns[start:end]), first: start == 0, last: end == len(l.columns)}
		if !s.first {
			s.spreadChords(s.columns)
		}
		stretch := stretchToFill(s.columns, l.prefix(s.first), width)
		others := usual
		if len(out) > 0 {
			others = stretches / float64(len(out))
		}
		if s.last && stretch > others*loosest {
			stretch = others // it may be short, spaced like the ones before it
		}
		stretches += stretch
		s.right = place(s.columns, l.prefix(s.first), stretch)
		s.arrange()
		out = append(out, s)
		start = end
	}
	return out
}

// leastWidth returns the narrowest width in staff spaces that no system
// overflows: that of the widest stretch between places where one may break.
func (l *layout) leastWidth() float64 {
	widest, room := 0.0, l.prefix(true)
	for _, c := range l.columns {
		room += c.least
		if c.barLine || c.breakCost >= 0 {
			widest = max(widest, room+widestLeft(c)+1)
			room = l.prefix(false)
		}
	}
	return widest
}

// arrange computes the places of everything in the system.
func (s *system) arrange() {
	s.heads = s.headsOf()
	s.beams = s.beamsOf()
	for i := range s.heads {
		if h := &s.heads[i]; h.beam == nil {
			h.attach()
			h.alone()
		}
	}
	s.tuplets = s.tupletMarksOf()
	s.top, s.bottom = 0, staffHeight
	for i := range s.heads {
		top, bottom := s.reachOf(&s.heads[i])
		s.top, s.bottom = min(s.top, top), max(s.bottom, bottom)
	}
	for _, t := range s.tuplets {
		top, bottom := t.reach()
		s.top, s.bottom = min(s.top, top), max(s.bottom, bottom)
	}
	s.bows = append(s.tiesOf(), s.slursOf()...)
	for _, b := range s.bows {
		top, bottom := b.reach()
		s.top, s.bottom = min(s.top, top), max(s.bottom, bottom)
	}
	for i := range s.heads {
		top, bottom := s.touchReach(&s.heads[i])
		s.top, s.bottom = min(s.top, top), max(s.bottom, bottom)
	}
	s.octaveLines = s.octaveLinesOf()
	s.brackets = s.bracketsOf()
	s.placeRows()
	s.placeAbove()
}

// reachOf returns how far a note reaches with its accidental.
func (s *system) reachOf(h *head) (top, bottom float64) {
	top, bottom = h.reach()
	high, low := s.columns[h.column].accidental.reach()
	return min(top, h.y+high), max(bottom, h.y+low)
}

// height returns the height of all rows in staff spaces.
func (s *system) height() float64 { return s.rows.end - s.above.end }

// draw draws the system with its top left corner at a point of the drawing.
func (s *system) draw(corner surface.Point) []surface.Item {
	p := pen{corner, s.options.space()}.moved(0, -s.above.end)
	s.notes = make([][]surface.Item, len(s.columns))
	items := s.drawStaff(p)
	if s.options.has(Tablature) {
		items = append(items, s.drawTab(p))
	}
	s.drawHeads(p)
	s.drawRows(p)
	s.drawTouches(p)
	if s.first {
		items = append(items, s.drawRowLabels(p)...)
	}
	items = append(items, s.drawAbove(p)...)
	for i, c := range s.columns {
		if len(s.notes[i]) == 0 {
			continue
		}
		g := surface.Group{Class: "rest", Items: s.notes[i]}
		if n := c.event.Note; n != line.Silence {
			g.Notes, g.Class = []int{n}, surface.NoteClass(s.style(n))
			if !c.event.TieFrom {
				g.ID = surface.NoteID(n)
			}
		}
		items = append(items, g)
	}
	if joins := s.drawJoins(p); len(joins) > 0 {
		items = append(items, surface.Group{Class: "joins", Items: joins})
	}
	for _, t := range s.tuplets {
		items = append(items, s.joined(t.draw(p), t.notes)...)
	}
	return items
}

// drawJoins draws the beams, ties, slurs and octave lines.
func (s *system) drawJoins(p pen) []surface.Item {
	var joins []surface.Item
	for _, b := range s.beams {
		joins = append(joins, s.joined(b.draw(p), joinedNotes(b.heads))...)
	}
	for _, b := range s.bows {
		joins = append(joins, s.joined([]surface.Item{b.draw(p)}, b.notes)...)
	}
	for _, o := range s.octaveLines {
		joins = append(joins, s.joined(o.draw(p, s.above.octave), o.notes)...)
	}
	return joins
}

// joined puts what connects notes in a group that names them, so that a page
// that hides the notes can show it again with them.
func (s *system) joined(items []surface.Item, notes []int) []surface.Item {
	if !s.options.ByHeart || len(items) == 0 {
		return items
	}
	return []surface.Item{surface.Group{Class: "join", Notes: notes, Items: items}}
}

// joinedNotes returns the notes that some heads belong to, tied ones once.
func joinedNotes(heads []*head) []int {
	notes := make([]int, len(heads))
	for i, h := range heads {
		notes[i] = h.event.Note
	}
	return slices.Compact(notes)
}

// drawHeads draws the notes and rests on the staff.
func (s *system) drawHeads(p pen) {
	for i := range s.heads {
		h := &s.heads[i]
		s.notes[h.column] = append(s.notes[h.column], h.draw(s, p)...)
	}
	for i, c := range s.columns {
		if c.barLine || c.event.Note != line.Silence {
			continue
		}
		sign := s.restSign(c.event)
		x, y := c.x, middleLine
		if sign == surface.RestWhole {
			y = middleLine - 1 // a whole rest hangs from the fourth line
		}
		if c.event.WholeBar {
			x = s.middleOfBar(i)
		}
		s.notes[i] = append(s.notes[i], p.centered(sign, x, y))
		if c.event.Value.Dots > 0 && !c.event.WholeBar {
			s.notes[i] = append(s.notes[i], p.sign(surface.AugmentationDot, x+sign.Width()/2+dotGap, middleLine-0.5))
		}
	}
}

// middleOfBar returns the middle between the bar lines around a column.
func (s *system) middleOfBar(i int) float64 {
	left := s.prefix(s.first)
	if i > 0 {
		left = s.columns[i-1].x
	}
	if i+1 < len(s.columns) {
		return (left + s.columns[i+1].x) / 2
	}
	return s.columns[i].x
}
