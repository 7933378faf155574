package surface

import (
	"embed"
	"encoding/base64"
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"golang.org/x/image/font/sfnt"
)

//go:embed fonts/*.woff2 fonts/text-OFL.txt fonts/bravura-OFL.txt
var webFonts embed.FS

// WebFonts returns the text fonts for a page that shows SVG, and the fonts'
// licences: HeddleSerif-Regular.woff2, HeddleSerif-SemiBold.woff2,
// HeddleSans-Regular.woff2, HeddleSans-SemiBold.woff2, text-OFL.txt and
// bravura-OFL.txt. The families are "Heddle Serif" and "Heddle Sans", in the
// weights 400 and 600.
func WebFonts() fs.FS {
	fonts, err := fs.Sub(webFonts, "fonts")
	must(err)
	return fonts
}

// faceStyles hold each face's family and weight.
var faceStyles = [faceCount]struct {
	family string
	weight int
}{
	Serif: {"Heddle Serif", 400}, SerifBold: {"Heddle Serif", 600},
	Sans: {"Heddle Sans", 400}, SansBold: {"Heddle Sans", 600},
}

// fontStyle returns a style element with the letters of the items' texts.
func fontStyle(items []Item) []byte {
	var used [faceCount]map[sfnt.GlyphIndex]bool
	gatherGlyphs(items, &used)
	out := []byte("<style>")
	for face, glyphs := range used {
		if len(glyphs) == 0 {
			continue
		}
		font := subset(Face(face).font().file, slices.Sorted(maps.Keys(glyphs)), "OS/2", "cmap", "hhea", "hmtx", "maxp", "name", "post")
		style := faceStyles[face]
		out = fmt.Appendf(out, "@font-face{font-family:'%s';font-weight:%d;src:url(data:font/ttf;base64,%s)}",
			style.family, style.weight, base64.StdEncoding.EncodeToString(font))
	}
	return append(out, "</style>\n"...)
}

func gatherGlyphs(items []Item, used *[faceCount]map[sfnt.GlyphIndex]bool) {
	for _, item := range items {
		switch it := item.(type) {
		case Group:
			gatherGlyphs(it.Items, used)
		case Text:
			if used[it.Face] == nil {
				used[it.Face] = map[sfnt.GlyphIndex]bool{}
			}
			for _, r := range it.Text {
				used[it.Face][it.Face.font().glyph(r).index] = true
			}
		}
	}
}
