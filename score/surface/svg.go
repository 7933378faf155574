package surface

import (
	"fmt"
	"io"
	"strconv"
)

// WritePageSVG writes the drawing as SVG 1.1 to put into a page.
//
// Fonts are presentation attributes, which a page's style sheet overrides;
// there is no inline style or script. Filled elements have the class of their
// paint: s0 for home, s1 to s5 for the superimposed scales, soft, hair, wood,
// glow, inlay or paper. Strokes have the same with edge- before it: edge-s0. Ink
// is currentColor and has no class. Groups have classes of their own: system,
// tab, bracket, joins (beams, ties, slurs and octave lines), join (one of them,
// with its notes in data-note, where the line may be hidden), tempo, neck,
// window, spot, place, rest, and note with scale0 for home, scale1 … for the
// others, or chromatic.
//
// Neighbours in one paint within a note, such as its head, stem and ledger
// lines, are one path, because a browser shows few elements faster than many. A
// drawing with ByRow goes further: a note's group holds only its ink, and the
// figures, names and bars of a row are one element, each character at its place.
// Text names the score's own fonts first, then common ones.
//
// Every colour but ink is left to the style sheet of the page.
func WritePageSVG(w io.Writer, d Drawing) error {
	s := newSVGWriter(d)
	s.classesOnly = true
	return s.writeTo(w)
}

// WriteSVG writes the drawing as an SVG file of its own: like WritePageSVG, but
// with colours and with the letters that it uses embedded, so that the file looks
// the same on a machine without the score's fonts. It has a style element, which
// a page's Content-Security-Policy may block: it is for files, not for pages.
func WriteSVG(w io.Writer, d Drawing) error {
	s := newSVGWriter(d)
	s.fonts = fontStyle(d.Items)
	return s.writeTo(w)
}

func newSVGWriter(d Drawing) *svgWriter {
	return &svgWriter{drawing: d, signs: map[signSize]signOutline{}, body: make([]byte, 0, usualSize*count(d.Items))}
}

func (s *svgWriter) writeTo(w io.Writer) error {
	s.head()
	paintItems(s, s.drawing.Items)
	s.writeRows()
	s.body = append(s.body, "</svg>\n"...)
	_, err := w.Write(s.body)
	return err
}

// An svgWriter gathers a file.
type svgWriter struct {
	drawing Drawing
	fonts   []byte // a style element, or nothing
	body    []byte
	signs   map[signSize]signOutline
	rows    svgRows
	depth   int   // of open groups
	note    bool  // within the group of a note
	begun   bool  // a path is being written, to which more can be added
	paint   Paint // of that path

	classesOnly bool // colours are the style sheet's
}

// usualSize is what an item takes, in bytes.
const usualSize = 140

// count returns how many items there are, those of groups included.
func count(items []Item) int {
	n := len(items)
	for _, item := range items {
		if g, ok := item.(Group); ok {
			n += count(g.Items)
		}
	}
	return n
}

// head writes everything before the first item.
func (s *svgWriter) head() {
	d := s.drawing
	id := escape(d.Prefix)
	out := s.body
	out = fmt.Appendf(out, `<svg xmlns="http://www.w3.org/2000/svg" class="score" role="img"`)
	if d.Title != "" {
		out = fmt.Appendf(out, ` aria-labelledby="%stitle"`, id)
	}
	if d.Description != "" {
		out = fmt.Appendf(out, ` aria-describedby="%sdesc"`, id)
	}
	out = append(out, ` width="`...)
	out = appendNumber(out, d.Width)
	out = append(out, `mm" height="`...)
	out = appendNumber(out, d.Height)
	out = append(out, `mm" viewBox="0 0 `...)
	out = appendNumber(out, d.Width)
	out = append(out, ' ')
	out = appendNumber(out, d.Height)
	out = append(out, `" fill="currentColor" font-family="Heddle Sans,Helvetica,Arial,sans-serif"`...)
	if d.Theme != Light || len(s.fonts) > 0 {
		out = fmt.Appendf(out, ` color="#%06x"`, d.Theme.rgb(Ink))
	}
	out = append(out, ">\n"...)
	if d.Title != "" {
		out = fmt.Appendf(out, "<title id=\"%stitle\">%s</title>\n", id, escape(d.Title))
	}
	if d.Description != "" {
		out = fmt.Appendf(out, "<desc id=\"%sdesc\">%s</desc>\n", id, escape(d.Description))
	}
	if d.Theme == Dark {
		out = append(out, `<rect class="paper" width="100%" height="100%" fill="`...)
		out = append(s.appendColor(out, Paper), "/>\n"...)
	}
	out = append(out, s.fonts...)
	s.body = out
}

func (s *svgWriter) rules(r Rules) {
	if r.Paint == None || len(r.Lines) == 0 || s.note && s.bars(r) {
		return
	}
	s.end()
	s.body = append(s.body, `<path d="`...)
	for _, l := range r.Lines {
		s.body = appendPoint(append(s.body, 'M'), l[0])
		switch {
		case l[0].Y == l[1].Y:
			s.body = appendNumber(append(s.body, 'H'), l[1].X)
		case l[0].X == l[1].X:
			s.body = appendNumber(append(s.body, 'V'), l[1].Y)
		default:
			s.body = appendPoint(append(s.body, 'L'), l[1])
		}
	}
	s.body = append(s.body, '"')
	s.stroke(r.Paint, r.Width, r.Dash)
	s.body = append(s.body, "/>\n"...)
}

func (s *svgWriter) shape(it Shape) {
	if it.Stroke == None && it.Fill > Ink && s.gathers() {
		s.rows.paths[it.Fill] = appendPath(s.rows.paths[it.Fill], it.Path)
		return
	}
	s.end()
	s.body = append(s.body, `<path d="`...)
	s.body = appendPath(s.body, it.Path)
	s.body = append(s.body, '"')
	s.fillAndStroke(it.Fill, it.Stroke, it.Width, nil)
	s.body = append(s.body, "/>\n"...)
}

func (s *svgWriter) disc(it Disc) {
	s.end()
	s.body = append(s.body, `<circle cx="`...)
	s.body = appendNumber(s.body, it.Center.X)
	s.body = append(s.body, `" cy="`...)
	s.body = appendNumber(s.body, it.Center.Y)
	s.body = append(s.body, `" r="`...)
	s.body = appendNumber(s.body, it.Radius)
	s.body = append(s.body, '"')
	s.fillAndStroke(it.Fill, it.Stroke, it.Width, it.Dash)
	s.body = append(s.body, "/>\n"...)
}

func (s *svgWriter) glyph(g Glyph) {
	o := s.outlineOf(g.Sign, g.Space)
	if g.Paint == None || len(o.rest) == 0 {
		return
	}
	start := Point{g.At.X + o.start.X, g.At.Y + o.start.Y}
	if g.Paint > Ink && s.gathers() {
		s.rows.paths[g.Paint] = append(appendPoint(append(s.rows.paths[g.Paint], 'M'), start), o.rest...)
		return
	}
	s.begin(g.Paint)
	s.body = append(appendPoint(append(s.body, 'M'), start), o.rest...)
	if !s.note {
		s.end()
	}
}

// families holds each face's attributes: the score's own font, then fonts
// that most machines have.
var families = [faceCount]string{
	Serif:     ` font-family="Heddle Serif,Georgia,serif"`,
	SerifBold: ` font-family="Heddle Serif,Georgia,serif" font-weight="600"`,
	Sans:      "", // the root's
	SansBold:  ` font-weight="600"`,
}

func (s *svgWriter) text(t Text) {
	if t.Paint == None || t.Text == "" || s.gathers() && s.rows.add(t) {
		return
	}
	s.end()
	s.body = append(s.body, `<text x="`...)
	s.body = appendNumber(s.body, t.At.X)
	s.body = append(s.body, `" y="`...)
	s.body = appendNumber(s.body, t.At.Y)
	s.textEnd(t)
}

// textEnd writes a text's element from the attributes after its place on.
func (s *svgWriter) textEnd(t Text) {
	s.body = append(s.body, `" font-size="`...)
	s.body = appendNumber(s.body, t.Size)
	s.body = append(s.body, '"')
	s.body = append(s.body, families[t.Face]...)
	switch t.Align {
	case Center:
		s.body = append(s.body, ` text-anchor="middle"`...)
	case Right:
		s.body = append(s.body, ` text-anchor="end"`...)
	}
	s.fill(t.Paint)
	s.body = append(s.body, '>')
	s.body = append(s.body, escape(t.Text)...)
	s.body = append(s.body, "</text>\n"...)
}

func (s *svgWriter) open(g Group) {
	s.end()
	s.depth++
	s.note = len(g.Notes) > 0
	s.body = append(s.body, "<g"...)
	if g.ID != "" {
		s.body = append(append(append(s.body, ` id="`...), escape(s.drawing.Prefix+g.ID)...), '"')
	}
	if g.Class != "" {
		s.body = append(append(append(s.body, ` class="`...), escape(g.Class)...), '"')
	}
	for i, n := range g.Notes {
		if i == 0 {
			s.body = append(s.body, ` data-note="`...)
		} else {
			s.body = append(s.body, ' ')
		}
		s.body = strconv.AppendInt(s.body, int64(n), 10)
	}
	if len(g.Notes) > 0 {
		s.body = append(s.body, '"')
	}
	s.body = append(s.body, ">\n"...)
	if g.Label != "" {
		s.body = append(append(append(s.body, "<title>"...), escape(g.Label)...), "</title>\n"...)
	}
}

// gathers reports whether the contents of the open group are written by row,
// together with those of its neighbours, and records which group the rows are in.
func (s *svgWriter) gathers() bool {
	if s.note && s.drawing.ByRow {
		s.rows.depth = s.depth - 1
	}
	return s.note && s.drawing.ByRow
}

func (s *svgWriter) close(Group) {
	s.end()
	s.note = false
	if s.depth == s.rows.depth {
		s.writeRows()
	}
	s.depth--
	s.body = append(s.body, "</g>\n"...)
}

// fill adds class and fill of what is filled; ink is inherited.
func (s *svgWriter) fill(p Paint) {
	switch p {
	case Ink:
	case None:
		s.body = append(s.body, ` fill="none"`...)
	default:
		s.body = append(append(append(s.body, ` class="`...), classes[p]...), '"')
		s.color(` fill="`, p)
	}
}

// stroke adds class, stroke and no fill. Ink strokes take the text's colour.
func (s *svgWriter) stroke(p Paint, width float64, dash []float64) {
	s.body = append(append(append(s.body, ` class="edge-`...), classes[p]...), `" fill="none"`...)
	s.strokeOnly(p, width, dash)
}

func (s *svgWriter) strokeOnly(p Paint, width float64, dash []float64) {
	s.color(` stroke="`, p)
	s.body = append(s.body, ` stroke-width="`...)
	s.body = appendNumber(s.body, width)
	s.body = append(s.body, '"')
	for i, length := range dash {
		if i == 0 {
			s.body = append(s.body, ` stroke-dasharray="`...)
		} else {
			s.body = append(s.body, ' ')
		}
		s.body = appendNumber(s.body, length)
	}
	if len(dash) > 0 {
		s.body = append(s.body, '"')
	}
}

func (s *svgWriter) fillAndStroke(fill, stroke Paint, width float64, dash []float64) {
	switch {
	case stroke == None:
		s.fill(fill)
	case fill == None:
		s.stroke(stroke, width, dash)
	default:
		s.body = append(s.body, ` class="`...)
		s.body = append(append(append(s.body, classes[fill]...), " edge-"...), classes[stroke]...)
		s.body = append(s.body, `"`...)
		s.color(` fill="`, fill)
		s.strokeOnly(stroke, width, dash)
	}
}

// color adds an attribute with a colour, where the style sheet has none for it.
func (s *svgWriter) color(attribute string, p Paint) {
	if s.classesOnly && p != Ink {
		return
	}
	s.body = s.appendColor(append(s.body, attribute...), p)
}

// appendColor adds a colour and the closing quote.
func (s *svgWriter) appendColor(out []byte, p Paint) []byte {
	if p == Ink {
		return append(out, `currentColor"`...)
	}
	return fmt.Appendf(out, `#%06x"`, s.drawing.Theme.rgb(p))
}
