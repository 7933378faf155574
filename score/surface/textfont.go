package surface

import (
	_ "embed"
	"sync"

	"golang.org/x/image/font/sfnt"
)

// A Face is one of the fonts that text is set in.
type Face int

// The faces: a serif for text, a sans for labels and numbers.
const (
	Serif Face = iota
	SerifBold
	Sans
	SansBold
	faceCount
)

// CapHeight is the height of a capital in ems, the same within 2 % in both
// families.
const CapHeight = 0.67

//go:embed fonts/HeddleSerif-Regular.ttf
var serifFile []byte

//go:embed fonts/HeddleSerif-SemiBold.ttf
var serifBoldFile []byte

//go:embed fonts/HeddleSans-Regular.ttf
var sansFile []byte

//go:embed fonts/HeddleSans-SemiBold.ttf
var sansBoldFile []byte

// A textFont is a text font read for measuring and drawing.
type textFont struct {
	file  []byte
	font  *sfnt.Font
	latin [latinEnd]textGlyph
	signs map[rune]textGlyph
}

// A textGlyph is one character, in ems.
type textGlyph struct {
	index   sfnt.GlyphIndex
	advance float64
	outline Path
}

// latinEnd is the end of the Latin letters that a font keeps at hand.
const latinEnd = 0x180

// textSigns are the characters beyond Latin that names and chords are made
// of, kept at hand too.
const textSigns = "♭♮♯𝄪𝄫Δ–—’“”…•−"

var textFonts = [faceCount]func() *textFont{
	Serif:     sync.OnceValue(func() *textFont { return readTextFont(serifFile) }),
	SerifBold: sync.OnceValue(func() *textFont { return readTextFont(serifBoldFile) }),
	Sans:      sync.OnceValue(func() *textFont { return readTextFont(sansFile) }),
	SansBold:  sync.OnceValue(func() *textFont { return readTextFont(sansBoldFile) }),
}

func readTextFont(file []byte) *textFont {
	face, err := sfnt.Parse(file)
	must(err)
	t := &textFont{file: file, font: face, signs: map[rune]textGlyph{}}
	var buffer sfnt.Buffer
	for r := range t.latin {
		t.latin[r] = t.read(&buffer, rune(r))
	}
	for _, r := range textSigns {
		t.signs[r] = t.read(&buffer, r)
	}
	return t
}

// read reads a character's glyph, or the font's blank box for one that it lacks.
func (t *textFont) read(buffer *sfnt.Buffer, r rune) textGlyph {
	index, err := t.font.GlyphIndex(buffer, r)
	must(err)
	return textGlyph{index, advanceOf(t.font, buffer, index), outline(t.font, buffer, index, 1)}
}

// glyph returns a character's glyph.
func (t *textFont) glyph(r rune) textGlyph {
	if r >= 0 && r < latinEnd {
		return t.latin[r]
	}
	if g, found := t.signs[r]; found {
		return g
	}
	return t.read(new(sfnt.Buffer), r)
}

// font returns the face's font, read once; an unknown face is Serif.
func (f Face) font() *textFont {
	if f < 0 || f >= faceCount {
		f = Serif
	}
	return textFonts[f]()
}

// Width returns how wide a text is at a size, in the size's unit.
func (f Face) Width(text string, size float64) float64 {
	t := f.font()
	ems := 0.0
	for _, r := range text {
		ems += t.glyph(r).advance
	}
	return ems * size
}
