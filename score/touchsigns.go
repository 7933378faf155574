package score

import (
	"math"

	"heddle/line"
	"heddle/score/surface"
	"heddle/touch"
)

// Touches are written as players know them (common practice, from memory): over the
// tablature an arrow with the size of a bend, down again for its release, and a wavy
// line for vibrato; a straight line for a slide; brackets around a ghost note. The
// staff has the signs of articulation at the head, a curve into a bent note and the
// same lines.

// Sizes in staff spaces.
const (
	bendRise    = 2.7  // room over the tablature for arrows and wavy lines
	bendLabel   = 1.25 // size of "full" and "½"
	bendReach   = 1.5  // from the number's edge to the arrow's tip
	bracketSize = 2.2
	slideReach  = 0.95
	signGap     = 0.95 // from a head or stem to a sign of articulation
	accentHalf  = 0.62
	waveHigh    = 0.22
	waveLong    = 0.85
	longestWave = 6.0
	arrowLong   = 0.6
	arrowHalf   = 0.26
)

// bendLabels are what is written at the arrow.
var bendLabels = map[touch.Bend]string{touch.Quarter: "¼", touch.Half: "½", touch.Whole: "full"}

// touchOf returns the touch that is written at an event: that of its note, at the
// note's first sign.
func (l *layout) touchOf(e line.Written) touch.Touch {
	if e.Note == line.Silence || e.TieFrom {
		return touch.Touch{}
	}
	return l.exercise.Notes[e.Note].Touch
}

// widen makes room in a column for the signs of a touch.
func (l *layout) widen(out *[rowCount]extent, e line.Written) {
	t := l.touchOf(e)
	grow := func(r row, left, right float64) {
		if r == staffRow || out[r] != (extent{}) {
			out[r].left += left
			out[r].right += right
		}
	}
	if t.Ghost {
		grow(staffRow, bracketRoom(), bracketRoom())
	}
	if t.Slide == touch.Into {
		grow(staffRow, slideReach, 0)
		grow(tabRow, slideReach, 0)
	}
	if t.Bend > 0 {
		grow(staffRow, slideReach, 0)
		grow(tabRow, 0, bendReach*0.7)
	}
	if t.Release {
		grow(tabRow, 0, bendReach*0.7)
	}
}

// bracketRoom returns the room that one bracket around a ghost note takes.
func bracketRoom() float64 { return surface.Sans.Width("(", bracketSize) + 0.12 }

// touchRise returns the room that the system needs over its tablature.
func (s *system) touchRise() float64 {
	for _, h := range s.heads {
		if t := s.touchOf(h.event); t.Bend > 0 || t.Vibrato {
			return bendRise
		}
	}
	return 0
}

// articulation is where the signs of articulation of a head go: from y on, in a
// direction.
func (s *system) articulation(h *head) (y, direction float64) {
	for _, b := range s.bows {
		for _, n := range b.notes {
			if b.slur && n == h.event.Note && h.hasStem() {
				return h.tip, h.sign() // the slur is at the head
			}
		}
	}
	if !h.hasStem() {
		return h.y, -1
	}
	return h.y, -h.sign()
}

// touchReach returns how far a head reaches with the signs of its touch.
func (s *system) touchReach(h *head) (top, bottom float64) {
	top, bottom = h.y, h.y
	t := s.touchOf(h.event)
	at, direction := s.articulation(h)
	if t.Staccato {
		at += direction * signGap
	}
	if t.Accent {
		at = outside(at+direction*signGap, direction)
	}
	if t.Accent || t.Staccato {
		at += direction * 0.5
	}
	top, bottom = min(top, at), max(bottom, at)
	if t.Vibrato {
		top = min(top, s.waveOver(h)-2*waveHigh)
	}
	return top, bottom
}

// outside moves a sign out of the staff in a direction.
func outside(y, direction float64) float64 {
	if direction < 0 {
		return min(y, -0.9)
	}
	return max(y, staffHeight+0.9)
}

// waveOver returns the y of the wavy line over a head.
func (s *system) waveOver(h *head) float64 {
	top, _ := h.reach()
	return min(top, 0) - 0.9
}

// drawTouches adds the signs of touch to the notes of the system.
func (s *system) drawTouches(p pen) {
	for i := range s.heads {
		h := &s.heads[i]
		t := s.touchOf(h.event)
		if t == (touch.Touch{}) {
			continue
		}
		items := s.staffTouch(p, h, t)
		if t.Slide == touch.Between {
			items = append(items, s.slideBetween(p, i)...)
		}
		if s.options.has(Tablature) {
			items = append(items, s.tabTouch(p, i, t)...)
		}
		s.notes[h.column] = append(s.notes[h.column], items...)
	}
}

// staffTouch draws the signs of one note on the staff.
func (s *system) staffTouch(p pen, h *head, t touch.Touch) (items []surface.Item) {
	e := surface.Engraving()
	at, direction := s.articulation(h)
	if t.Staccato {
		at += direction * signGap
		if at > 0 && at < staffHeight && math.Mod(at, 1) == 0 {
			at += direction * 0.5 // a dot is never on a line
		}
		items = append(items, surface.Disc{Center: p.at(h.x, at), Radius: 0.2 * p.space, Fill: surface.Ink})
	}
	if t.Accent {
		at = outside(at+direction*signGap, direction)
		items = append(items, surface.Rules{Width: 1.3 * e.Stem * p.space, Paint: surface.Ink, Lines: [][2]surface.Point{
			{p.at(h.x-accentHalf, at-0.38), p.at(h.x+accentHalf, at)}, {p.at(h.x-accentHalf, at+0.38), p.at(h.x+accentHalf, at)}}})
	}
	left := h.x - halfHead
	if w := s.columns[h.column].accidental.width(); w > 0 {
		left -= accidentalGap + w
	}
	if t.Ghost {
		away := bracketRoom() / 2
		for i, x := range [2]float64{left - away, h.x + halfHead + away} {
			items = append(items, p.text("()"[i:i+1], x, h.y+0.62, bracketSize, surface.Sans, surface.Center, surface.Ink))
		}
	}
	switch {
	case t.Slide == touch.Into:
		items = append(items, p.line(left-slideReach-0.1, h.y+0.75, left-0.2, h.y+0.1, e.Stem, surface.Ink))
	case t.Bend == touch.Quarter:
		items = append(items, s.curve(p, surface.Pt(h.x+halfHead+0.1, h.y), surface.Pt(h.x+halfHead+0.75, h.y-0.75), e.Stem))
	case t.Bend > 0:
		items = append(items, s.curve(p, surface.Pt(left-slideReach-0.1, h.y+0.9), surface.Pt(left-0.15, h.y), e.Stem))
	}
	if t.Vibrato {
		items = append(items, s.wave(p, h.x-halfHead, s.waveOver(h), s.waveTo(h)))
	}
	return items
}

// slideBetween draws the line from the note before to head i, on the staff and on the
// tablature.
func (s *system) slideBetween(p pen, i int) []surface.Item {
	e := surface.Engraving()
	h := &s.heads[i]
	from := surface.Pt(h.x-3, h.y)
	if i > 0 {
		from = surface.Pt(s.heads[i-1].x, s.heads[i-1].y)
	} else if s.fretOf(i) > 0 {
		from.Y += 0.6
	}
	right := h.x - halfHead - 0.25
	if w := s.columns[h.column].accidental.width(); w > 0 {
		right -= accidentalGap + w
	}
	items := []surface.Item{p.line(from.X+halfHead+0.25, from.Y, right, h.y, e.Stem, surface.Ink)}
	if !s.options.has(Tablature) {
		return items
	}
	y, rise, left := s.tabPlace(i).Y, 0.4, h.x-3
	if i > 0 {
		left = s.heads[i-1].x
		if s.fretOf(i) < s.fretOf(i-1) {
			rise = -rise
		}
	}
	return append(items, p.line(left+1.0, y+rise, h.x-1.0, y-rise, e.Stem, surface.Ink))
}
