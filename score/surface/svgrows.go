package surface

import "unicode/utf8"

// svgRows gather the texts of the groups of notes, and everything in them that
// is not ink, for a drawing that is written by row.
type svgRows struct {
	depth int // of the group that holds the groups of notes
	paths [paintCount][]byte
	texts []svgTextRow
}

// An svgTextRow is the texts on one baseline in one size, face and paint.
type svgTextRow struct {
	y, size float64
	face    Face
	paint   Paint
	x       []byte // where each character begins
	text    []byte
}

// add takes a text into its row; it reports false for one with characters
// beyond the basic plane, of which a list of places may count one or two.
func (r *svgRows) add(t Text) bool {
	for _, c := range t.Text {
		if c > 0xFFFF {
			return false
		}
	}
	row := r.row(t)
	x := t.left()
	for _, c := range t.Text {
		if len(row.x) > 0 {
			row.x = append(row.x, ' ')
		}
		row.x = appendNumber(row.x, x)
		row.text = utf8.AppendRune(row.text, c)
		x += t.Face.font().glyph(c).advance * t.Size
	}
	return true
}

func (r *svgRows) row(t Text) *svgTextRow {
	for i := range r.texts {
		if row := &r.texts[i]; row.y == t.At.Y && row.size == t.Size && row.face == t.Face && row.paint == t.Paint {
			return row
		}
	}
	r.texts = append(r.texts, svgTextRow{y: t.At.Y, size: t.Size, face: t.Face, paint: t.Paint})
	return &r.texts[len(r.texts)-1]
}

// writeRows writes what was gathered: a path for each paint, and a text for
// each row, over them.
func (s *svgWriter) writeRows() {
	for paint, path := range s.rows.paths {
		if len(path) > 0 {
			s.body = append(append(append(s.body, `<path d="`...), path...), '"')
			s.fill(Paint(paint))
			s.body = append(s.body, "/>\n"...)
		}
	}
	for _, row := range s.rows.texts {
		s.body = append(append(append(s.body, `<text x="`...), row.x...), `" y="`...)
		s.body = appendNumber(s.body, row.y)
		s.textEnd(Text{Text: string(row.text), Size: row.size, Face: row.face, Paint: row.paint})
	}
	s.rows = svgRows{}
}
