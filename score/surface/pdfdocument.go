package surface

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"maps"
	"slices"

	"golang.org/x/image/font/sfnt"
)

// A pdfDocument gathers pages, fonts and signs, and writes them as numbered
// objects (ISO 32000-1, 7.5).
type pdfDocument struct {
	pages []pdfPage
	signs map[Sign]string // names in the content streams
	fonts [faceCount]*pdfFont

	out     bytes.Buffer
	offsets []int // of each object, from number 1
}

type pdfPage struct {
	width, height float64 // points
	content       []byte
}

func newPDFDocument() *pdfDocument { return &pdfDocument{signs: map[Sign]string{}} }

func (d *pdfDocument) addPage(width, height float64, content []byte) {
	d.pages = append(d.pages, pdfPage{width, height, content})
}

// sign returns the name under which the document holds a sign.
func (d *pdfDocument) sign(s Sign) string {
	if d.signs[s] == "" {
		d.signs[s] = fmt.Sprintf("/G%X", int(s))
	}
	return d.signs[s]
}

// font returns a face as the document holds it.
func (d *pdfDocument) font(f Face) *pdfFont {
	if d.fonts[f] == nil {
		d.fonts[f] = &pdfFont{face: f, name: fmt.Sprintf("/F%d", f), used: map[sfnt.GlyphIndex]usedGlyph{}}
	}
	return d.fonts[f]
}

// The first objects have fixed numbers.
const (
	catalogObject   = 1
	pagesObject     = 2
	infoObject      = 3
	resourcesObject = 4
	firstFree       = 5
)

// bytes returns the whole file.
func (d *pdfDocument) bytes(title string) []byte {
	d.offsets = make([]int, firstFree-1)
	d.out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	d.writeResources()
	kids := d.writePages()
	d.object(pagesObject, fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", len(d.pages), kids))
	d.object(catalogObject, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Lang(en)/ViewerPreferences<</DisplayDocTitle true>>>>", pagesObject))
	d.object(infoObject, fmt.Sprintf("<</Title %s/Creator(heddle)>>", pdfString(title)))
	start := d.out.Len()
	fmt.Fprintf(&d.out, "xref\n0 %d\n0000000000 65535 f \n", len(d.offsets)+1)
	for _, offset := range d.offsets {
		fmt.Fprintf(&d.out, "%010d 00000 n \n", offset)
	}
	fmt.Fprintf(&d.out, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R>>\nstartxref\n%d\n%%%%EOF\n",
		len(d.offsets)+1, catalogObject, infoObject, start)
	return d.out.Bytes()
}

// next returns the number of a new object.
func (d *pdfDocument) next() int {
	d.offsets = append(d.offsets, 0)
	return len(d.offsets)
}

func (d *pdfDocument) object(number int, body string) {
	d.offsets[number-1] = d.out.Len()
	fmt.Fprintf(&d.out, "%d 0 obj\n%s\nendobj\n", number, body)
}

// stream writes a compressed stream with more entries in its dictionary.
func (d *pdfDocument) stream(number int, entries string, content []byte) {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	z.Write(content) // a bytes.Buffer takes everything
	z.Close()
	d.offsets[number-1] = d.out.Len()
	fmt.Fprintf(&d.out, "%d 0 obj\n<<%s/Filter/FlateDecode/Length %d>>\nstream\n", number, entries, packed.Len())
	d.out.Write(packed.Bytes())
	d.out.WriteString("\nendstream\nendobj\n")
}

func (d *pdfDocument) writePages() (kids string) {
	for _, page := range d.pages {
		content, number := d.next(), d.next()
		d.stream(content, "", page.content)
		d.object(number, fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox[0 0 %.2f %.2f]/Resources %d 0 R/Contents %d 0 R>>",
			pagesObject, page.width, page.height, resourcesObject, content))
		kids += fmt.Sprintf("%d 0 R ", number)
	}
	return kids
}

// writeResources writes the fonts and signs that the pages share.
func (d *pdfDocument) writeResources() {
	fonts, signs := "", ""
	for _, f := range d.fonts {
		if f != nil {
			fonts += fmt.Sprintf("%s %d 0 R", f.name, d.writeFont(f))
		}
	}
	for _, s := range slices.Sorted(maps.Keys(d.signs)) {
		number := d.next()
		box := s.Box()
		d.stream(number, fmt.Sprintf("/Type/XObject/Subtype/Form/BBox[%.3f %.3f %.3f %.3f]",
			box.MinX-0.01, box.MinY-0.01, box.MaxX+0.01, box.MaxY+0.01),
			append(appendPDFPath(nil, music().glyphs[s].outline), 'f'))
		signs += fmt.Sprintf("%s %d 0 R", d.signs[s], number)
	}
	d.object(resourcesObject, fmt.Sprintf("<</Font<<%s>>/XObject<<%s>>>>", fonts, signs))
}

// writeFont writes a face as a composite font of its used glyphs, numbered as
// in the font file (ISO 32000-1, 9.7).
func (d *pdfDocument) writeFont(f *pdfFont) int {
	used := slices.Sorted(maps.Keys(f.used))
	file, descriptor, descendant, unicode, number := d.next(), d.next(), d.next(), d.next(), d.next()
	font := subset(f.face.font().file, used, "hhea", "hmtx", "maxp")
	d.stream(file, fmt.Sprintf("/Length1 %d", len(font)), font)
	name := "HEDDLE+" + pdfFontNames[f.face]
	d.object(descriptor, fmt.Sprintf("<</Type/FontDescriptor/FontName/%s/Flags 4/FontBBox[-200 -300 1200 1000]/ItalicAngle 0/Ascent 920/Descent -250/CapHeight 670/StemV 80/FontFile2 %d 0 R>>", name, file))
	widths := ""
	for _, g := range used {
		widths += fmt.Sprintf("%d[%d]", g, f.used[g].width)
	}
	d.object(descendant, fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %d 0 R/DW 500/W[%s]/CIDToGIDMap/Identity>>", name, descriptor, widths))
	d.stream(unicode, "", f.toUnicode(used))
	d.object(number, fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, descendant, unicode))
	return number
}

var pdfFontNames = [faceCount]string{
	Serif: "HeddleSerif-Regular", SerifBold: "HeddleSerif-SemiBold",
	Sans: "HeddleSans-Regular", SansBold: "HeddleSans-SemiBold",
}

// toUnicode returns the map from glyphs to characters (ISO 32000-1, 9.10.3),
// in blocks of at most 100 entries.
func (f *pdfFont) toUnicode(used []sfnt.GlyphIndex) []byte {
	out := []byte("/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapType 2 def\n/CMapName/Heddle def\n1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n")
	for block := range slices.Chunk(used, 100) {
		out = fmt.Appendf(out, "%d beginbfchar\n", len(block))
		for _, g := range block {
			out = append(appendHex(append(out, '<'), uint16(g)), "><"...)
			out = append(appendUTF16(out, f.used[g].char), ">\n"...)
		}
		out = append(out, "endbfchar\n"...)
	}
	return append(out, "endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n"...)
}
