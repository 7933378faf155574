package score

import (
	"math"

	"heddle/line"
	"heddle/score/notation"
	"heddle/score/surface"
)

// A head is a note on the staff of one system.
type head struct {
	column int // in the system
	event  line.Written
	place  int     // staff place
	x, y   float64 // its middle, in staff spaces
	up     bool    // the stem's direction
	stem   float64 // x of the stem's middle; meaningless for a whole note
	tip    float64 // y where the stem ends
	beam   *beam
}

// stemLength is an octave (common practice; Gould 2011, "Stems").
const stemLength = 3.5

// headsOf places the notes of a system, with the stems that they have without
// beams.
func (s *system) headsOf() []head {
	var heads []head
	for i, c := range s.columns {
		if c.barLine || c.event.Note == line.Silence {
			continue
		}
		place := s.place(c.event.Note)
		h := head{column: i, event: c.event, place: place, x: c.x, y: placeY(place), up: place < 0}
		heads = append(heads, h)
	}
	return heads
}

// attach computes the x of the stem, once its direction is known.
func (h *head) attach() {
	anchors := headSign(h.event.Value).Anchors()
	left := h.x - headSign(h.event.Value).Width()/2
	half := surface.Engraving().Stem / 2
	if h.up {
		h.stem = left + anchors.StemUpSE[0] - half
	} else {
		h.stem = left + anchors.StemDownNW[0] + half
	}
}

// root returns where the stem leaves the head.
func (h *head) root() float64 {
	anchors := headSign(h.event.Value).Anchors()
	if h.up {
		return h.y - anchors.StemUpSE[1]
	}
	return h.y - anchors.StemDownNW[1]
}

// hasStem reports whether the note's value has a stem.
func (h *head) hasStem() bool { return h.event.Value.Halvings > 0 }

// alone ends the stem of a note without a beam: an octave long, longer for
// many flags, and on ledger lines as far as the middle line.
func (h *head) alone() {
	length := stemLength + 0.75*float64(max(0, h.event.Value.Flags()-2))
	if h.up {
		h.tip = min(h.y-length, middleLine)
	} else {
		h.tip = max(h.y+length, middleLine)
	}
}

// reach returns the highest and lowest y of the head and its stem.
func (h *head) reach() (top, bottom float64) {
	top, bottom = h.y-0.5, h.y+0.5
	if h.hasStem() {
		top, bottom = min(top, h.tip), max(bottom, h.tip)
	}
	return top, bottom
}

// sign returns the direction of the stem along y: −1 for up, 1 for down.
func (h *head) sign() float64 {
	if h.up {
		return -1
	}
	return 1
}

// flag draws the flag of an unbeamed note.
func (h *head) flag(p pen) []surface.Item {
	if h.event.Value.Flags() == 0 || h.beam != nil {
		return nil
	}
	sign := h.flagSign()
	anchor := sign.Anchors().StemUpNW
	if !h.up {
		anchor = sign.Anchors().StemDownSW
	}
	return []surface.Item{p.sign(sign, h.stem-surface.Engraving().Stem/2, h.tip+anchor[1])}
}

// flagSign returns the flag of a short note by itself.
func (h *head) flagSign() surface.Sign {
	sign := surface.FlagEighthUp + surface.Sign(2*(h.event.Value.Flags()-1))
	if !h.up {
		sign++
	}
	return sign
}

// draw draws the head, its accidental, dots, ledger lines, stem and flag.
func (h *head) draw(s *system, p pen) []surface.Item {
	e := surface.Engraving()
	sign := headSign(h.event.Value)
	width := sign.Width()
	var items []surface.Item
	if lines := s.ledgers(h.event.Note); len(lines) > 0 {
		rules := surface.Rules{Width: e.LedgerLine * p.space, Paint: surface.Ink}
		reach := width/2 + e.LedgerExtension
		for _, y := range lines {
			rules.Lines = append(rules.Lines, [2]surface.Point{p.at(h.x-reach, y), p.at(h.x+reach, y)})
		}
		items = append(items, rules)
	}
	items = append(items, p.sign(sign, h.x-width/2, h.y))
	if h.hasStem() {
		items = append(items, p.line(h.stem, h.root(), h.stem, h.tip, e.Stem, surface.Ink))
		items = append(items, h.flag(p)...)
	}
	if h.event.Value.Dots > 0 {
		y := h.y
		if h.place%2 == 0 {
			y -= 0.5 // a dot is never on a line
		}
		items = append(items, p.sign(surface.AugmentationDot, h.x+width/2+dotGap, y))
	}
	return append(items, s.columns[h.column].accidental.draw(p, h.x-width/2-accidentalGap, h.y)...)
}

// quarterUp rounds to a quarter of a staff space, away from zero in the
// direction of sign.
func quarterUp(y, sign float64) float64 {
	if sign < 0 {
		return math.Floor(y*4) / 4
	}
	return math.Ceil(y*4) / 4
}

// An accidentalMark is the accidental printed before a note, or none.
type accidentalMark struct {
	printed bool
	sign    surface.Sign
}

// accidental returns what is drawn for a mark. Courtesy naturals look like any
// other: parentheses only clutter a line that has many (common practice).
func (l *layout) accidental(m notation.Mark) accidentalMark {
	return accidentalMark{m.Printed && !(m.Courtesy && !l.options.has(CourtesyNaturals)), surface.Accidental(m.Accidental)}
}

// width returns the mark's width in staff spaces.
func (a accidentalMark) width() float64 {
	if !a.printed {
		return 0
	}
	return a.sign.Width()
}

// draw draws the accidental with its right edge at x.
func (a accidentalMark) draw(p pen, x, y float64) []surface.Item {
	if !a.printed {
		return nil
	}
	return []surface.Item{p.sign(a.sign, x-a.sign.Width()-a.sign.Box().MinX, y)}
}

// reach returns how far above and below the head's middle an accidental
// reaches.
func (a accidentalMark) reach() (top, bottom float64) {
	if !a.printed {
		return 0, 0
	}
	b := a.sign.Box()
	return b.MinY, b.MaxY
}
