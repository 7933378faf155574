package surface

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/vector"
)

// MMPerInch is exact since 1959.
const MMPerInch = 25.4

// maxPixels bounds a picture's memory: 100 million pixels are 400 MB, an A4
// page at 1000 dots an inch.
const maxPixels = 100e6

// WritePNG writes the drawing as PNG at a resolution in dots an inch, on the
// theme's paper.
func WritePNG(w io.Writer, d Drawing, dpi float64) error {
	picture, err := d.raster(dpi)
	if err != nil {
		return err
	}
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	return encoder.Encode(w, picture)
}

// raster draws the picture.
func (d Drawing) raster(dpi float64) (*image.RGBA, error) {
	scale := dpi / MMPerInch
	width, height := math.Ceil(d.Width*scale), math.Ceil(d.Height*scale)
	if !(width >= 1 && height >= 1 && width*height <= maxPixels) {
		return nil, fmt.Errorf("a picture of %g by %g mm at %g dots an inch: want at least one pixel and at most %g million", d.Width, d.Height, dpi, maxPixels/1e6)
	}
	p := &pngWriter{
		image: image.NewRGBA(image.Rect(0, 0, int(width), int(height))),
		scale: scale,
		theme: d.Theme,
	}
	draw.Draw(p.image, p.image.Bounds(), image.NewUniform(d.Theme.color(Paper)), image.Point{}, draw.Src)
	paintItems(p, d.Items)
	return p.image, nil
}

type pngWriter struct {
	image      *image.RGBA
	rasterizer vector.Rasterizer
	scale      float64 // pixels to a mm
	theme      Theme
}

func (p *pngWriter) rules(r Rules) {
	var path Path
	for _, l := range r.Lines {
		for _, dash := range dashes(l[0], l[1], r.Dash) {
			path = append(path, bar(dash[0], dash[1], r.Width)...)
		}
	}
	p.fill(path, r.Paint)
}

func (p *pngWriter) shape(s Shape) {
	p.fill(s.Path, s.Fill)
	if s.Stroke != None {
		p.fill(outlineStroke(s.Path, s.Width), s.Stroke)
	}
}

func (p *pngWriter) disc(d Disc) {
	p.fill(circle(d.Center, d.Radius, false), d.Fill)
	if d.Stroke == None {
		return
	}
	if len(d.Dash) == 0 {
		ring := circle(d.Center, d.Radius+d.Width/2, false)
		p.fill(append(ring, circle(d.Center, d.Radius-d.Width/2, true)...), d.Stroke)
		return
	}
	p.fill(arcs(d), d.Stroke)
}

func (p *pngWriter) glyph(g Glyph) {
	p.fill(placed(music().glyphs[g.Sign].outline, g.Space, g.At), g.Paint)
}

func (p *pngWriter) text(t Text) {
	if t.Paint == None {
		return
	}
	at := Point{t.left(), t.At.Y}
	face := t.Face.font()
	for _, r := range t.Text {
		glyph := face.glyph(r)
		p.fill(placed(glyph.outline, t.Size, at), t.Paint)
		at.X += glyph.advance * t.Size
	}
}

func (p *pngWriter) open(Group)  {}
func (p *pngWriter) close(Group) {}

// fill rasterises a filled outline within its own box.
func (p *pngWriter) fill(path Path, paint Paint) {
	if paint == None || len(path) == 0 {
		return
	}
	b := path.bounds()
	area := image.Rect(
		int(math.Floor(b.MinX*p.scale)), int(math.Floor(b.MinY*p.scale)),
		int(math.Ceil(b.MaxX*p.scale))+1, int(math.Ceil(b.MaxY*p.scale))+1,
	).Intersect(p.image.Bounds())
	if area.Empty() {
		return
	}
	p.rasterizer.Reset(area.Dx(), area.Dy())
	at := func(q Point) (x, y float32) {
		return float32(q.X*p.scale - float64(area.Min.X)), float32(q.Y*p.scale - float64(area.Min.Y))
	}
	for _, s := range path {
		x0, y0 := at(s.P[0])
		switch s.Op {
		case MoveTo:
			p.rasterizer.MoveTo(x0, y0)
		case LineTo:
			p.rasterizer.LineTo(x0, y0)
		case CurveTo:
			x1, y1 := at(s.P[1])
			x2, y2 := at(s.P[2])
			p.rasterizer.CubeTo(x0, y0, x1, y1, x2, y2)
		case Close:
			p.rasterizer.ClosePath()
		}
	}
	p.rasterizer.Draw(p.image, area, image.NewUniform(p.theme.color(paint)), image.Point{})
}

// placed returns an outline enlarged and moved to a point.
func placed(path Path, size float64, to Point) Path {
	moved := make(Path, len(path))
	for i, s := range path {
		for k, q := range s.P {
			s.P[k] = Point{q.X*size + to.X, q.Y*size + to.Y}
		}
		moved[i] = s
	}
	return moved
}
