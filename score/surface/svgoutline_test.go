package surface

import (
	"strings"
	"testing"
)

// Where outlines of one path overlap, the nonzero rule fills both only if they
// turn the same way round.
func TestSignsAndBarsTurnTheSameWay(t *testing.T) {
	bar := Polygon(Point{0, 0}, Point{0, 1}, Point{1, 1}, Point{1, 0})
	if !strings.HasPrefix(string(appendBar(nil, [2]Point{{0, 0.5}, {1, 0.5}}, 1)), "M0 0V1H1V0Z") {
		t.Fatal("a bar is written another way than the one measured here")
	}
	for sign, glyph := range music().glyphs {
		if turn := area(glyph.outline); turn*area(bar) < 0 {
			t.Errorf("%U %s has the area %.3f, a bar %.3f", rune(sign), glyph.name, turn, area(bar))
		}
	}
}

// area returns the area within an outline's points, negative where it turns
// the other way (the shoelace formula); holes count against it.
func area(path Path) float64 {
	sum := 0.0
	var start, last Point
	for _, s := range path {
		p := s.end()
		switch s.Op {
		case MoveTo:
			start = p
		case Close:
			p = start
			fallthrough
		default:
			sum += last.X*p.Y - p.X*last.Y
		}
		last = p
	}
	return sum / 2
}

func TestRelativeOutlinesAreShort(t *testing.T) {
	path := Path{
		{MoveTo, [3]Point{{1, 1}}},
		{LineTo, [3]Point{{2.5, 1}}},
		{LineTo, [3]Point{{2.5, 1.25}}},
		{CurveTo, [3]Point{{2.75, 1.5}, {3, 1.004}, {3.006, 0.5}}},
		{Op: Close},
		{MoveTo, [3]Point{{1.5, 2}}},
		{LineTo, [3]Point{{1, 0}}},
		{Op: Close},
	}
	want := "h1.5v.25c.25.25.5-.25.51-.75zm.5 1l-.5-2z"
	if got := string(appendRelative(nil, path)); got != want {
		t.Errorf("written %s, want %s", got, want)
	}
}

func TestNumbersAreShort(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1: "1", 0.5: ".5", -0.25: "-.25", 12.3456: "12.35", 100: "100", -3: "-3", 0.004: "0", 1.05: "1.05", 2.999: "3"} {
		if got := string(appendNumber(nil, v)); got != want {
			t.Errorf("%v is written %s, want %s", v, got, want)
		}
	}
}
