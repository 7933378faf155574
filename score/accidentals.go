package score

import (
	"heddle/score/notation"
	"heddle/score/surface"
)

// An accidentalMark is the accidental printed before a note, or none.
type accidentalMark struct{ notation.Mark }

// signs returns what is printed, from the left: a courtesy accidental stands
// in parentheses.
func (a accidentalMark) signs() []surface.Sign {
	sign := surface.Accidental(a.Accidental)
	switch {
	case !a.Printed:
		return nil
	case a.Courtesy:
		return []surface.Sign{surface.ParenthesisLeft, sign, surface.ParenthesisRight}
	}
	return []surface.Sign{sign}
}

// width returns the mark's width in staff spaces.
func (a accidentalMark) width() (w float64) {
	for _, sign := range a.signs() {
		w += sign.Width()
	}
	return w
}

// draw draws the accidental with its right edge at x.
func (a accidentalMark) draw(p pen, x, y float64) []surface.Item {
	x -= a.width()
	var items []surface.Item
	for _, sign := range a.signs() {
		items = append(items, p.sign(sign, x-sign.Box().MinX, y))
		x += sign.Width()
	}
	return items
}

// reach returns how far above and below the head's middle an accidental
// reaches.
func (a accidentalMark) reach() (top, bottom float64) {
	if !a.Printed {
		return 0, 0
	}
	b := surface.Accidental(a.Accidental).Box()
	return b.MinY, b.MaxY
}
