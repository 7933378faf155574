package surface

import (
	_ "embed"
	"encoding/json"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

//go:embed fonts/bravura.otf
var bravuraFile []byte

//go:embed fonts/bravura_metadata.json
var bravuraMetadata []byte

//go:embed fonts/glyphs.txt
var signList string

// spacesPerEm is how many staff spaces make an em in every SMuFL font (SMuFL
// 1.4, "Metrics and glyph registration").
const spacesPerEm = 4

// outlinePPEM is the size at which outlines are read from a font: its own
// units, so that nothing is rounded.
const outlinePPEM = 1000

// EngravingDefaults holds the font's engraving defaults in staff spaces (SMuFL 1.4,
// "engravingDefaults").
type EngravingDefaults struct {
	StaffLine       float64 `json:"staffLineThickness"`
	Stem            float64 `json:"stemThickness"`
	Beam            float64 `json:"beamThickness"`
	BeamSpacing     float64 `json:"beamSpacing"`
	LedgerLine      float64 `json:"legerLineThickness"`
	LedgerExtension float64 `json:"legerLineExtension"`
	SlurEnd         float64 `json:"slurEndpointThickness"`
	SlurMiddle      float64 `json:"slurMidpointThickness"`
	TieEnd          float64 `json:"tieEndpointThickness"`
	TieMiddle       float64 `json:"tieMidpointThickness"`
	ThinBar         float64 `json:"thinBarlineThickness"`
	ThickBar        float64 `json:"thickBarlineThickness"`
	BarSeparation   float64 `json:"barlineSeparation"`
	RepeatDots      float64 `json:"repeatBarlineDotSeparation"`
	TupletBracket   float64 `json:"tupletBracketThickness"`
}

// Anchors are the points of a glyph where others attach, in staff spaces, y
// upward as in the font.
type Anchors struct {
	StemUpSE   [2]float64 `json:"stemUpSE"`
	StemDownNW [2]float64 `json:"stemDownNW"`
	StemUpNW   [2]float64 `json:"stemUpNW"`
	StemDownSW [2]float64 `json:"stemDownSW"`
}

// A musicFont is the SMuFL font as the layout needs it.
type musicFont struct {
	engraving EngravingDefaults
	glyphs    map[Sign]musicGlyph
}

type musicGlyph struct {
	name    string
	outline Path // in staff spaces from the origin, y downward
	box     Box  // in staff spaces, y downward
	advance float64
	anchors Anchors
}

// music returns the music font, read once.
var music = sync.OnceValue(readMusicFont)

// readMusicFont reads the embedded font. It panics if the files built into
// the program are broken.
func readMusicFont() *musicFont {
	var metadata struct {
		Engraving EngravingDefaults      `json:"engravingDefaults"`
		Advances  map[string]float64     `json:"glyphAdvanceWidths"`
		Anchors   map[string]Anchors     `json:"glyphsWithAnchors"`
		Boxes     map[string]glyphExtent `json:"glyphBBoxes"`
	}
	must(json.Unmarshal(bravuraMetadata, &metadata))
	face, err := sfnt.Parse(bravuraFile)
	must(err)
	m := &musicFont{engraving: metadata.Engraving, glyphs: map[Sign]musicGlyph{}}
	var buffer sfnt.Buffer
	for name, sign := range signNames() {
		index, err := face.GlyphIndex(&buffer, rune(sign))
		must(err)
		box := metadata.Boxes[name]
		m.glyphs[sign] = musicGlyph{
			name:    name,
			outline: outline(face, &buffer, index, spacesPerEm),
			box:     Box{box.SW[0], -box.NE[1], box.NE[0], -box.SW[1]},
			advance: metadata.Advances[name],
			anchors: metadata.Anchors[name],
		}
	}
	return m
}

type glyphExtent struct {
	NE [2]float64 `json:"bBoxNE"`
	SW [2]float64 `json:"bBoxSW"`
}

// Engraving returns the thicknesses and distances that the font is meant to be
// engraved with.
func Engraving() EngravingDefaults { return music().engraving }

// Anchors returns the points of the sign where others attach.
func (s Sign) Anchors() Anchors { return music().glyphs[s].anchors }

// Box returns the sign's extent in staff spaces from its origin, y downward.
func (s Sign) Box() Box { return music().glyphs[s].box }

// Width returns the width of the sign's box in staff spaces.
func (s Sign) Width() float64 { b := s.Box(); return b.MaxX - b.MinX }

// outline reads a glyph's outline at a size in any unit to the em.
func outline(face *sfnt.Font, buffer *sfnt.Buffer, index sfnt.GlyphIndex, em float64) Path {
	segments, err := face.LoadGlyph(buffer, index, fixed.I(outlinePPEM), nil)
	must(err)
	at := func(p fixed.Point26_6) Point {
		return Point{float64(p.X) / 64 / outlinePPEM * em, float64(p.Y) / 64 / outlinePPEM * em}
	}
	var path Path
	var last Point
	for i, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				path = append(path, Segment{Op: Close})
			}
			path = append(path, Segment{MoveTo, [3]Point{at(s.Args[0])}})
		case sfnt.SegmentOpLineTo:
			path = append(path, Segment{LineTo, [3]Point{at(s.Args[0])}})
		case sfnt.SegmentOpQuadTo:
			path = append(path, Segment{CurveTo, cubic(last, at(s.Args[0]), at(s.Args[1]))})
		case sfnt.SegmentOpCubeTo:
			path = append(path, Segment{CurveTo, [3]Point{at(s.Args[0]), at(s.Args[1]), at(s.Args[2])}})
		}
		last = path[len(path)-1].end()
	}
	if len(path) > 0 {
		path = append(path, Segment{Op: Close})
	}
	return path
}

// cubic raises a quadratic curve to a cubic one.
func cubic(from, control, to Point) [3]Point {
	third := func(a, b Point) Point { return Point{a.X + (b.X-a.X)*2/3, a.Y + (b.Y-a.Y)*2/3} }
	return [3]Point{third(from, control), third(to, control), to}
}

// unitsToEm turns a font's advance at outlinePPEM into parts of an em.
func unitsToEm(advance fixed.Int26_6) float64 { return float64(advance) / 64 / outlinePPEM }

// advanceOf returns the advance of a glyph in ems.
func advanceOf(face *sfnt.Font, buffer *sfnt.Buffer, index sfnt.GlyphIndex) float64 {
	advance, err := face.GlyphAdvance(buffer, index, fixed.I(outlinePPEM), font.HintingNone)
	must(err)
	return unitsToEm(advance)
}

// must panics if a file built into the program is broken.
func must(err error) {
	if err != nil {
		panic("score: " + err.Error())
	}
}
