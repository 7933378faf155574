package surface

import (
	"bytes"
	"encoding/base64"
	"io/fs"
	"regexp"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// The embedded letters must be a font that another reader opens: those used
// keep their outlines and widths, the others lose them.
func TestStandaloneSVGHoldsTheLettersItUses(t *testing.T) {
	d := Drawing{Width: 40, Height: 10, Items: []Item{Group{Items: []Item{
		Text{Text: "B♭ 𝄫 é", At: Point{2, 8}, Size: 5, Face: SerifBold, Paint: Ink},
	}}}}
	var file bytes.Buffer
	if err := WriteSVG(&file, d); err != nil {
		t.Fatal(err)
	}
	sources := regexp.MustCompile(`font-family:'([^']+)';font-weight:(\d+);src:url\(data:font/ttf;base64,([^)]+)\)`).FindAllSubmatch(file.Bytes(), -1)
	if len(sources) != 1 || string(sources[0][1]) != "Heddle Serif" || string(sources[0][2]) != "600" {
		t.Fatalf("%d fonts are embedded", len(sources))
	}
	content, err := base64.StdEncoding.DecodeString(string(sources[0][3]))
	if err != nil {
		t.Fatal(err)
	}
	font, err := sfnt.Parse(content)
	if err != nil {
		t.Fatal(err)
	}
	var buffer sfnt.Buffer
	for text, want := range map[string]bool{"B♭𝄫é": true, "CxQ♯": false} {
		for _, r := range text {
			index, err := font.GlyphIndex(&buffer, r)
			if err != nil || index == 0 {
				t.Errorf("%q has no glyph: %v", r, err)
			}
			if drawn := len(outline(font, &buffer, index, 1)) > 0; drawn != want {
				t.Errorf("%q is drawn: %v, want %v", r, drawn, want)
			}
			if got, want := advanceOf(font, &buffer, index), SerifBold.Width(string(r), 1); got != want {
				t.Errorf("%q is %g wide, want %g", r, got, want)
			}
		}
	}
	if size := len(content); size > 12<<10 {
		t.Errorf("the subset takes %d bytes", size)
	}
}

func TestWebFontsAndTheirLicencesAreThere(t *testing.T) {
	for _, name := range []string{
		"HeddleSerif-Regular.woff2", "HeddleSerif-SemiBold.woff2", "HeddleSans-Regular.woff2", "HeddleSans-SemiBold.woff2",
		"text-OFL.txt", "bravura-OFL.txt",
	} {
		content, err := fs.ReadFile(WebFonts(), name)
		if err != nil {
			t.Error(err)
		}
		if ending := name[len(name)-5:]; ending == "woff2" && !bytes.HasPrefix(content, []byte("wOF2")) {
			t.Errorf("%s is not a WOFF2 font", name)
		}
		if ending := name[len(name)-3:]; ending == "txt" && !bytes.Contains(content, []byte("SIL OPEN FONT LICENSE")) {
			t.Errorf("%s does not hold the licence", name)
		}
	}
}
