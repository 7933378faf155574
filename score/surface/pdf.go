package surface

import (
	"io"
	"math"
	"strings"

	"golang.org/x/image/font/sfnt"
)

// pointsPerMM is the PDF unit: 72 to the inch (ISO 32000-1, 8.3.2.3).
const pointsPerMM = 72 / MMPerInch

// WritePDF writes each drawing as a page of one PDF 1.7 document, titled as
// the first.
//
// Music signs are outlines, kept once for the document; text is real text in
// subsets of the score's fonts, with the characters it shows, so that it
// can be searched and copied. There is no date and no random
// identifier: the same drawings give the same bytes.
func WritePDF(w io.Writer, pages []Drawing) error {
	doc := newPDFDocument()
	for _, d := range pages {
		p := &pdfWriter{doc: doc, drawing: d}
		p.begin()
		paintItems(p, d.Items)
		doc.addPage(d.Width*pointsPerMM, d.Height*pointsPerMM, p.body)
	}
	title := ""
	if len(pages) > 0 {
		title = pages[0].Title
	}
	_, err := w.Write(doc.bytes(title))
	return err
}

// A pdfWriter writes the content of one page, in mm with y downward.
type pdfWriter struct {
	doc     *pdfDocument
	drawing Drawing
	body    []byte
}

// begin maps the drawing's axes to those of the page.
func (p *pdfWriter) begin() {
	p.numbers(pointsPerMM, 0, 0, -pointsPerMM, 0, p.drawing.Height*pointsPerMM)
	p.op("cm")
	if p.drawing.Theme == Dark {
		p.color(Paper, false)
		p.numbers(0, 0, p.drawing.Width, p.drawing.Height)
		p.op("re f")
	}
}

func (p *pdfWriter) rules(r Rules) {
	if r.Paint == None || len(r.Lines) == 0 {
		return
	}
	p.pen(r.Paint, r.Width, r.Dash)
	for _, l := range r.Lines {
		p.numbers(l[0].X, l[0].Y)
		p.op("m")
		p.numbers(l[1].X, l[1].Y)
		p.op("l")
	}
	p.op("S")
	p.endPen(r.Dash)
}

func (p *pdfWriter) shape(s Shape) {
	p.outline(s.Path, s.Fill, s.Stroke, s.Width, nil)
}

func (p *pdfWriter) disc(d Disc) {
	p.outline(circle(d.Center, d.Radius, false), d.Fill, d.Stroke, d.Width, d.Dash)
}

// outline fills and strokes a path.
func (p *pdfWriter) outline(path Path, fill, stroke Paint, width float64, dash []float64) {
	if fill == None && stroke == None || len(path) == 0 {
		return
	}
	if fill != None {
		p.color(fill, false)
	}
	if stroke != None {
		p.pen(stroke, width, dash)
	}
	p.body = appendPDFPath(p.body, path)
	switch {
	case stroke == None:
		p.op("f")
	case fill == None:
		p.op("S")
	default:
		p.op("B")
	}
	p.endPen(dash)
}

func (p *pdfWriter) glyph(g Glyph) {
	if g.Paint == None {
		return
	}
	p.op("q")
	p.color(g.Paint, false)
	p.numbers(g.Space, 0, 0, g.Space, g.At.X, g.At.Y)
	p.op("cm")
	p.body = append(append(p.body, p.doc.sign(g.Sign)...), " Do "...)
	p.op("Q")
}

func (p *pdfWriter) text(t Text) {
	if t.Paint == None || t.Text == "" {
		return
	}
	font := p.doc.font(t.Face)
	p.color(t.Paint, false)
	p.op("BT")
	p.body = append(append(p.body, font.name...), " 1 Tf "...)
	p.numbers(t.Size, 0, 0, -t.Size, t.left(), t.At.Y)
	p.body = append(p.body, "Tm <"...)
	for _, r := range t.Text {
		glyph := t.Face.font().glyph(r)
		font.use(r, glyph)
		p.body = appendHex(p.body, uint16(glyph.index))
	}
	p.body = append(p.body, "> Tj "...)
	p.op("ET")
}

func (p *pdfWriter) open(Group)  {}
func (p *pdfWriter) close(Group) {}

// pen sets the colour, width and dash of strokes.
func (p *pdfWriter) pen(paint Paint, width float64, dash []float64) {
	p.color(paint, true)
	p.numbers(width)
	p.op("w")
	if len(dash) > 0 {
		p.body = append(p.body, '[')
		p.numbers(dash...)
		p.op("] 0 d")
	}
}

// endPen resets the dash.
func (p *pdfWriter) endPen(dash []float64) {
	if len(dash) > 0 {
		p.op("[] 0 d")
	}
}

// color sets the colour of fills or strokes.
func (p *pdfWriter) color(paint Paint, stroke bool) {
	c := p.drawing.Theme.rgb(paint)
	p.numbers(float64(c>>16)/255, float64(c>>8&0xff)/255, float64(c&0xff)/255)
	if stroke {
		p.op("RG")
	} else {
		p.op("rg")
	}
}

func (p *pdfWriter) op(name string) { p.body = append(append(p.body, name...), '\n') }

func (p *pdfWriter) numbers(values ...float64) {
	for _, v := range values {
		p.body = append(appendPDFNumber(p.body, v), ' ')
	}
}

// appendPDFNumber writes a number as appendNumber does, and with more digits
// for what is not a place: the axes' scale.
func appendPDFNumber(out []byte, v float64) []byte {
	if v == pointsPerMM || v == -pointsPerMM {
		if v < 0 {
			out = append(out, '-')
		}
		return append(out, "2.8346457"...)
	}
	return appendNumber(out, v)
}

// appendPDFPath writes a path's operators.
func appendPDFPath(out []byte, path Path) []byte {
	points := func(op string, ps ...Point) {
		for _, q := range ps {
			out = append(appendNumber(append(appendNumber(out, q.X), ' '), q.Y), ' ')
		}
		out = append(append(out, op...), '\n')
	}
	for _, s := range path {
		switch s.Op {
		case MoveTo:
			points("m", s.P[0])
		case LineTo:
			points("l", s.P[0])
		case CurveTo:
			points("c", s.P[:]...)
		case Close:
			points("h")
		}
	}
	return out
}

const hexDigits = "0123456789ABCDEF"

func appendHex(out []byte, v uint16) []byte {
	return append(out, hexDigits[v>>12], hexDigits[v>>8&15], hexDigits[v>>4&15], hexDigits[v&15])
}

// pdfString writes a text string in UTF-16 with its byte order mark
// (ISO 32000-1, 7.9.2.2).
func pdfString(s string) string {
	out := []byte("<FEFF")
	for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
		out = appendUTF16(out, r)
	}
	return string(append(out, '>'))
}

func appendUTF16(out []byte, r rune) []byte {
	if r >= 0x10000 {
		r -= 0x10000
		return appendHex(appendHex(out, uint16(0xD800+r>>10)), uint16(0xDC00+r&0x3ff))
	}
	return appendHex(out, uint16(r))
}

// A pdfFont is a face as one document uses it.
type pdfFont struct {
	face Face
	name string // in the content streams
	used map[sfnt.GlyphIndex]usedGlyph
}

type usedGlyph struct {
	char  rune
	width int // in 1/1000 em
}

func (f *pdfFont) use(r rune, g textGlyph) {
	if _, known := f.used[g.index]; !known {
		f.used[g.index] = usedGlyph{r, int(math.Round(g.advance * 1000))}
	}
}
