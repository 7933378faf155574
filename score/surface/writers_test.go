package surface_test

import (
	"bytes"
	"image"
	"image/color"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"heddle/internal/need"
	"heddle/score"
	"heddle/score/internal/examples"
	"heddle/score/paper"
	"heddle/score/surface"
)

// A writer under test, and a program of others that renders its file.
type writer struct {
	name   string
	write  func(*bytes.Buffer, surface.Drawing) error
	tool   string
	render func(t *testing.T, file []byte, dpi int) image.Image
}

func writers() []writer {
	return []writer{
		{"svg", func(b *bytes.Buffer, d surface.Drawing) error { return surface.WriteSVG(b, d) }, "rsvg-convert", renderSVG},
		{"pdf", func(b *bytes.Buffer, d surface.Drawing) error { return surface.WritePDF(b, []surface.Drawing{d}) }, "pdftoppm", renderPDF},
		{"png", func(b *bytes.Buffer, d surface.Drawing) error { return surface.WritePNG(b, d, suiteDPI) }, "", renderPNG},
	}
}

const suiteDPI = 150

func renderPNG(t *testing.T, file []byte, _ int) image.Image {
	t.Helper()
	picture, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

func renderSVG(t *testing.T, file []byte, dpi int) image.Image {
	t.Helper()
	cmd := exec.Command("rsvg-convert", "-d", strconv.Itoa(dpi), "-p", strconv.Itoa(dpi), "-b", "white")
	cmd.Env = append(os.Environ(), "FONTCONFIG_FILE="+ownFonts(t))
	cmd.Stdin = bytes.NewReader(file)
	return decodeOutput(t, cmd)
}

func renderPDF(t *testing.T, file []byte, dpi int) image.Image {
	t.Helper()
	cmd := exec.Command("pdftoppm", "-png", "-singlefile", "-r", strconv.Itoa(dpi), "-")
	cmd.Stdin = bytes.NewReader(file)
	return decodeOutput(t, cmd)
}

// ownFonts writes a fontconfig file with the score's own fonts and none of the
// machine's.
func ownFonts(t *testing.T) string {
	t.Helper()
	fonts, err := filepath.Abs("fonts")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "fonts.conf")
	text := `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>` + fonts + `</dir><cachedir>` + dir + `</cachedir></fontconfig>`
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

func decodeOutput(t *testing.T, cmd *exec.Cmd) image.Image {
	t.Helper()
	var out, trouble bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &trouble
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %v %s", cmd.Args, err, trouble.String())
	}
	picture, _, err := image.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// eachWriter runs a test of the surface's contract on every writer.
func eachWriter(t *testing.T, test func(t *testing.T, w writer)) {
	for _, w := range writers() {
		t.Run(w.name, func(t *testing.T) {
			if w.tool != "" {
				need.Program(t, "what "+w.name+" looks like is not checked", w.tool)
			}
			test(t, w)
		})
	}
}

// picture draws and renders; writing twice must give the same bytes.
func (w writer) picture(t *testing.T, d surface.Drawing) image.Image {
	t.Helper()
	var first, second bytes.Buffer
	if err := w.write(&first, d); err != nil {
		t.Fatal(err)
	}
	if err := w.write(&second, d); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Errorf("%s: the same drawing gives other bytes the second time", w.name)
	}
	return w.render(t, first.Bytes(), suiteDPI)
}

// inkAt returns the colour at a place in mm.
func inkAt(picture image.Image, x, y float64) color.RGBA {
	r, g, b, _ := picture.At(int(x*suiteDPI/25.4), int(y*suiteDPI/25.4)).RGBA()
	return color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 0xff}
}

// near reports whether two colours are the same but for antialiasing.
func near(a, b color.RGBA) bool {
	d := func(x, y uint8) float64 { return math.Abs(float64(x) - float64(y)) }
	return d(a.R, b.R) < 12 && d(a.G, b.G) < 12 && d(a.B, b.B) < 12
}

// scaleColors are the colours of home and three superimposed scales on white.
var scaleColors = [...]color.RGBA{{0x1d, 0x4e, 0x79, 255}, {0xb3, 0x46, 0x0f, 255}, {0x2f, 0x6b, 0x3c, 255}, {0x7a, 0x3b, 0x7d, 255}}

func TestEveryWriterPutsEachPrimitiveWhereItStands(t *testing.T) {
	square := surface.Polygon(surface.Pt(60, 10), surface.Pt(80, 10), surface.Pt(80, 30), surface.Pt(60, 30))
	d := surface.Drawing{Width: 100, Height: 80, Title: "primitives", Items: []surface.Item{
		surface.Rules{Lines: [][2]surface.Point{{surface.Pt(10, 10), surface.Pt(40, 10)}, {surface.Pt(20, 20), surface.Pt(20, 40)}}, Width: 3, Paint: surface.Scale(0)},
		surface.Rules{Lines: [][2]surface.Point{{surface.Pt(10, 60), surface.Pt(50, 60)}}, Width: 3, Dash: []float64{8, 8}, Paint: surface.Scale(1)},
		surface.Shape{Path: square, Fill: surface.Scale(2), Stroke: surface.Scale(3), Width: 4},
		surface.Disc{Center: surface.Pt(70, 55), Radius: 10, Stroke: surface.Scale(1), Width: 3},
		surface.Disc{Center: surface.Pt(70, 55), Radius: 4, Fill: surface.Scale(2)},
		surface.Glyph{Sign: surface.NoteheadBlack, At: surface.Pt(30, 30), Space: 10, Paint: surface.Scale(3)},
		surface.Group{Class: "note", Notes: []int{4}, Items: []surface.Item{surface.Rules{Lines: [][2]surface.Point{{surface.Pt(90, 10), surface.Pt(90, 70)}}, Width: 3, Paint: surface.Scale(0)}}},
		surface.Rules{Lines: [][2]surface.Point{{surface.Pt(5, 75), surface.Pt(95, 75)}}, Width: 3, Paint: surface.None},
		surface.Shape{Path: square, Fill: surface.None},
	}}
	white := color.RGBA{255, 255, 255, 255}
	rows := []struct {
		what string
		x, y float64
		want color.RGBA
	}{
		{"horizontal line", 30, 10, scaleColors[0]},
		{"vertical line", 20, 35, scaleColors[0]},
		{"beyond the line's end", 43, 10, white},
		{"first dash", 14, 60, scaleColors[1]},
		{"first gap", 22, 60, white},
		{"second dash", 30, 60, scaleColors[1]},
		{"filled shape", 70, 20, scaleColors[2]},
		{"its edge", 60, 20, scaleColors[3]},
		{"ring", 80, 55, scaleColors[1]},
		{"inside the ring", 76, 55, white},
		{"disc", 70, 55, scaleColors[2]},
		{"notehead", 36, 30, scaleColors[3]},
		{"below the notehead", 36, 38, white},
		{"in a group", 90, 40, scaleColors[0]},
		{"a line without paint", 50, 75, white},
	}
	eachWriter(t, func(t *testing.T, w writer) {
		picture := w.picture(t, d)
		for _, row := range rows {
			if got := inkAt(picture, row.x, row.y); !near(got, row.want) {
				t.Errorf("%s at %g, %g is %v, want %v", row.what, row.x, row.y, got, row.want)
			}
		}
	})
}

func TestEveryWriterTakesAnEmptyDrawing(t *testing.T) {
	eachWriter(t, func(t *testing.T, w writer) {
		picture := w.picture(t, surface.Drawing{Width: 20, Height: 10})
		if got := inkAt(picture, 10, 5); !near(got, color.RGBA{255, 255, 255, 255}) {
			t.Errorf("the empty drawing is %v in its middle", got)
		}
	})
}

// The three writers must show the same page. Renderers differ in how they
// soften edges, so pictures are compared as a reader at arm's length sees
// them: in cells of 9 pixels (1.5 mm), each cell's grey to within 48 of 255 (a
// renderer that snaps thin lines to pixels comes near it), and on average to
// within 1.5.
func TestTheWritersShowTheSamePage(t *testing.T) {
	const cell, most, mean = 9, 48.0, 1.5
	shown := map[string]bool{"worked-example": true, "odd-durations": true, "four-scales-over-changes": true}
	for _, c := range examples.Cases(t) {
		if !shown[c.Name] {
			continue
		}
		pages, err := paper.Pages(c.Exercise, paper.Options{Music: score.Options{Theme: c.Theme}})
		if err != nil {
			t.Fatal(err)
		}
		var reference [][]float64
		ours := writers()
		for i := len(ours) - 1; i >= 0; i-- {
			w := ours[i]
			if w.tool != "" {
				need.Program(t, "the writers are not compared", w.tool)
			}
			grey := cells(w.picture(t, pages[0]), cell)
			if reference == nil {
				reference = grey
				continue
			}
			worst, total, where := 0.0, 0.0, surface.Point{}
			for y := range reference {
				for x := range reference[y] {
					if y < len(grey) && x < len(grey[y]) {
						d := math.Abs(grey[y][x] - reference[y][x])
						if d > worst {
							worst, where = d, surface.Pt(float64(x*cell), float64(y*cell))
						}
						total += d
					}
				}
			}
			average := total / float64(len(reference)*len(reference[0]))
			if worst > most || average > mean {
				t.Errorf("%s: %s differs from png by up to %.1f (at pixel %.0f) and %.2f on average", c.Name, w.name, worst, where, average)
			}
		}
	}
}

// cells averages a picture's grey over squares.
func cells(picture image.Image, size int) [][]float64 {
	b := picture.Bounds()
	out := make([][]float64, b.Dy()/size)
	for y := range out {
		out[y] = make([]float64, b.Dx()/size)
		for x := range out[y] {
			sum := 0.0
			for j := range size {
				for i := range size {
					r, g, bl, _ := picture.At(b.Min.X+x*size+i, b.Min.Y+y*size+j).RGBA()
					sum += (0.299*float64(r) + 0.587*float64(g) + 0.114*float64(bl)) / 257
				}
			}
			out[y][x] = sum / float64(size*size)
		}
	}
	return out
}
