package score

import (
	"heddle/score/notation"
	"heddle/score/surface"
)

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
