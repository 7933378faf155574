package surface

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// The metadata knows a glyph by its SMuFL name, the font by its code point:
// only a right code point has an outline that fills the metadata's box. The
// tolerance is the rounding of the metadata, 1/1000 of a staff space, and of
// the font's units, 1/250.
func TestCodePointsAreThoseOfTheNames(t *testing.T) {
	const tolerance = 0.006
	names := signNames()
	if len(names) < 50 {
		t.Fatalf("only %d signs in the list", len(names))
	}
	for name, sign := range names {
		drawn, said := tight(music().glyphs[sign].outline), sign.Box()
		for _, d := range []float64{drawn.MinX - said.MinX, drawn.MinY - said.MinY, drawn.MaxX - said.MaxX, drawn.MaxY - said.MaxY} {
			if math.Abs(d) > tolerance {
				t.Errorf("%s (U+%X) is drawn in %.3f, the metadata says %.3f", name, int(sign), drawn, said)
				break
			}
		}
	}
}

// tight returns the box of a path's own curves, not of their handles.
func tight(path Path) Box {
	var points []Point
	var last Point
	for _, s := range path {
		switch s.Op {
		case MoveTo, LineTo:
			points = append(points, s.P[0])
		case CurveTo:
			for i := 1; i <= 64; i++ {
				points = append(points, onCurve(last, s.P, float64(i)/64))
			}
		case Close:
			continue
		}
		last = s.end()
	}
	return around(0, points...)
}

func TestEverySignThatIsDrawnIsInTheFont(t *testing.T) {
	signs := []Sign{
		TrebleClef, TrebleClefOctave, BassClef, BassClefOctave, NoteheadWhole, NoteheadHalf, NoteheadBlack,
		AugmentationDot, RepeatDots, MetronomeHalf, MetronomeQuarter, MetronomeEighth, MetronomeDot,
		OctaveHigher, DownStroke, UpStroke,
	}
	for semitones := -3; semitones <= 3; semitones++ {
		signs = append(signs, Accidental(semitones))
	}
	for d := range Sign(10) {
		signs = append(signs, TimeDigit+d, TupletDigit+d)
	}
	const finest = 6 // halvings of a whole note: a sixty-fourth
	for n := range Sign(2 * (finest - 2)) {
		signs = append(signs, FlagEighthUp+n)
	}
	for n := range Sign(finest + 1) {
		signs = append(signs, RestWhole+n)
	}
	for _, s := range signs {
		if g := music().glyphs[s]; g.name == "" || len(g.outline) == 0 {
			t.Errorf("U+%X has no outline or no name", int(s))
		}
	}
}

func TestEngravingDefaultsAreTheFonts(t *testing.T) {
	var metadata struct {
		Defaults map[string]any `json:"engravingDefaults"`
	}
	if err := json.Unmarshal(bravuraMetadata, &metadata); err != nil {
		t.Fatal(err)
	}
	value := reflect.ValueOf(music().engraving)
	for i := range value.NumField() {
		key := value.Type().Field(i).Tag.Get("json")
		want, ok := metadata.Defaults[key].(float64)
		if got := value.Field(i).Float(); !ok || got != want || got == 0 {
			t.Errorf("%s is %v, the font says %v", key, got, metadata.Defaults[key])
		}
	}
}

// Names and chords must be text in every face, not boxes for what is missing.
func TestTextFacesHoldTheMusicSigns(t *testing.T) {
	for face := range faceCount {
		font := face.font()
		for _, r := range textSigns + "ÄÖÜßéèçøłőśż°" {
			index, err := font.font.GlyphIndex(new(sfnt.Buffer), r)
			if err != nil || index == 0 {
				t.Errorf("face %d lacks %q", face, r)
			}
		}
		if flat, plain := face.Width("B♭", 10), face.Width("B", 10); flat < plain+2 || flat > plain+5 {
			t.Errorf("face %d: B♭ is %.2f wide, B %.2f", face, flat, plain)
		}
	}
}

func BenchmarkReadingTheFonts(b *testing.B) {
	for b.Loop() {
		readMusicFont()
		readTextFont(serifFile)
	}
}
