package fretboard

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heddle/neck"
	"heddle/score/surface"
)

// The map in mm.
const (
	mapWidth     = 120.0
	mapStringGap = 2.0
	mapRow       = 3.6 // for each placement of a pair
	mapPairGap   = 2.6
	mapNumber    = 2.6
	mapLeft      = 7.0
)

// Map returns the whole neck, small, and beneath it where the placements of
// each pair lie, in the order given: a bar over the frets of each, home
// filled, the superimposed ones hollow, with the lines that their brackets
// have in the score. The row of the current pair (counted from 0; −1 for none)
// is shaded and has a mark at its left; every row has a background over the
// whole width, so that it can be clicked anywhere.
func Map(in neck.Instrument, pairs []neck.Pair, current int, opt Options) surface.Drawing {
	width := opt.Width
	if width <= 0 {
		width = mapWidth
	}
	m := neckMap{in: in, width: width}
	d := surface.Drawing{Width: width, Title: "Places on the neck", Description: m.describe(pairs), Prefix: opt.Prefix, Theme: opt.Theme}
	d.Items = append(d.Items, m.neck()...)
	y := m.bottom() + mapNumber + 1.6
	for i, pair := range pairs {
		placements := append([]neck.Placement{pair.Home}, pair.Superimposed...)
		g := surface.Group{Class: "place", ID: "place" + strconv.Itoa(i)}
		g.Items = append(g.Items, m.ground(y, mapRow*float64(len(placements)), i == current)...)
		g.Items = append(g.Items, surface.Text{
			Text: strconv.Itoa(i + 1), At: surface.Pt(m.x(mapLeft-2), y+mapRow*float64(len(placements))/2+mapNumber*surface.CapHeight/2),
			Size: mapNumber, Face: surface.Sans, Align: surface.Center, Paint: surface.Soft,
		})
		for number, p := range placements {
			g.Items = append(g.Items, m.bar(p.Window, number, y))
			y += mapRow
		}
		y += mapPairGap
		d.Items = append(d.Items, g)
	}
	d.Height = y
	return d
}

type neckMap struct {
	in    neck.Instrument
	width float64
}

// x mirrors for a left-handed player.
func (m neckMap) x(x float64) float64 {
	if m.in.Left {
		return m.width - x
	}
	return x
}

func (m neckMap) wire(fret int) float64 {
	whole := m.in.FretMM(m.in.LastFret()) - m.in.FretMM(0)
	if whole <= 0 {
		return m.x(mapLeft)
	}
	return m.x(mapLeft + (m.in.FretMM(fret)-m.in.FretMM(0))/whole*(m.width-mapLeft-1))
}

func (m neckMap) top() float64 { return 0.5 }

func (m neckMap) bottom() float64 { return m.top() + mapStringGap*float64(max(1, m.in.Strings())) }

// neck draws the outline, frets, strings and inlays.
func (m neckMap) neck() []surface.Item {
	top, bottom := m.top(), m.bottom()
	left, right := m.wire(0), m.wire(m.in.LastFret())
	frets := surface.Rules{Width: 0.25, Paint: surface.Hair}
	var dots []surface.Item
	for fret := 1; fret <= m.in.LastFret(); fret++ {
		frets.Lines = append(frets.Lines, [2]surface.Point{surface.Pt(m.wire(fret), top), surface.Pt(m.wire(fret), bottom)})
		if slices.Contains(m.in.Inlays(), fret+m.in.Capo) {
			x := (m.wire(fret-1) + m.wire(fret)) / 2
			dots = append(dots,
				surface.Disc{Center: surface.Pt(x, (top+bottom)/2), Radius: 0.7, Fill: surface.Inlay},
				surface.Text{Text: strconv.Itoa(fret), At: surface.Pt(x, bottom+mapNumber+0.2), Size: mapNumber, Face: surface.Sans, Align: surface.Center, Paint: surface.Soft})
		}
	}
	strings := surface.Rules{Width: 0.15, Paint: surface.Hair}
	for i := range m.in.Strings() {
		y := top + mapStringGap*(float64(i)+0.5)
		strings.Lines = append(strings.Lines, [2]surface.Point{surface.Pt(left, y), surface.Pt(right, y)})
	}
	items := []surface.Item{surface.Shape{Fill: surface.Wood, Path: surface.Polygon(surface.Pt(left, top), surface.Pt(right, top), surface.Pt(right, bottom), surface.Pt(left, bottom))}}
	items = append(items, dots...)
	return append(items, frets, strings, surface.Rules{Lines: [][2]surface.Point{{surface.Pt(left, top), surface.Pt(left, bottom)}}, Width: 0.7, Paint: surface.Ink})
}

// ground draws the background of a pair, which reaches halfway to its
// neighbours.
func (m neckMap) ground(y, height float64, current bool) []surface.Item {
	const markWidth = 0.8
	top, bottom := y-mapPairGap/2, y+height+mapPairGap/2
	block := func(from, to float64, paint surface.Paint) surface.Shape {
		return surface.Shape{Fill: paint, Path: surface.Polygon(surface.Pt(from, top), surface.Pt(to, top), surface.Pt(to, bottom), surface.Pt(from, bottom))}
	}
	if !current {
		return []surface.Item{block(0, m.width, surface.Paper)}
	}
	return []surface.Item{block(0, m.width, surface.Glow), block(0, markWidth, surface.Ink)}
}

// bar draws a window: home filled, the others hollow with their own line.
func (m neckMap) bar(w neck.Window, number int, y float64) surface.Item {
	from, to := m.wire(max(w.Low-1, 0)), m.wire(min(w.High, m.in.LastFret()))
	const thick = 1.9
	top := y + (mapRow-thick)/2
	if number == 0 {
		return surface.Shape{Fill: surface.Scale(0), Path: surface.Polygon(surface.Pt(from, top), surface.Pt(to, top), surface.Pt(to, top+thick), surface.Pt(from, top+thick))}
	}
	edge := surface.Rules{Width: 0.45, Paint: surface.Scale(number), Dash: surface.ScaleDash(number, 1)}
	corners := []surface.Point{surface.Pt(from, top), surface.Pt(to, top), surface.Pt(to, top+thick), surface.Pt(from, top+thick)}
	for i, c := range corners {
		edge.Lines = append(edge.Lines, [2]surface.Point{c, corners[(i+1)%4]})
	}
	return edge
}

func (m neckMap) describe(pairs []neck.Pair) string {
	var out strings.Builder
	for i, p := range pairs {
		fmt.Fprintf(&out, "%d: frets %d to %d", i+1, p.Home.Window.Low, p.Home.Window.High)
		for _, s := range p.Superimposed {
			fmt.Fprintf(&out, " and %d to %d", s.Window.Low, s.Window.High)
		}
		out.WriteString(". ")
	}
	return strings.TrimSpace(out.String())
}
