package examples

import (
	"math"
	"strings"

	"heddle/score/surface"
)

// Bounds returns the smallest box around an item.
func Bounds(item surface.Item) surface.Box {
	switch it := item.(type) {
	case surface.Rules:
		var b surface.Box
		for _, l := range it.Lines {
			b = join(b, boxAround(it.Width/2, l[:]...))
		}
		return b
	case surface.Shape:
		var points []surface.Point
		for _, s := range it.Path {
			points = append(points, s.P[:map[surface.Op]int{surface.MoveTo: 1, surface.LineTo: 1, surface.CurveTo: 3}[s.Op]]...)
		}
		width := it.Width
		if it.Stroke == surface.None {
			width = 0
		}
		return boxAround(width/2, points...)
	case surface.Disc:
		return boxAround(it.Radius+it.Width/2, it.Center)
	case surface.Glyph:
		b := it.Sign.Box()
		return surface.Box{MinX: it.At.X + b.MinX*it.Space, MinY: it.At.Y + b.MinY*it.Space, MaxX: it.At.X + b.MaxX*it.Space, MaxY: it.At.Y + b.MaxY*it.Space}
	case surface.Text:
		return boundsOfText(it)
	}
	var b surface.Box
	for _, inner := range item.(surface.Group).Items {
		b = join(b, Bounds(inner))
	}
	return b
}

// boundsOfText takes a text from its baseline, or its descenders where it has
// any, to the height of its capitals.
func boundsOfText(t surface.Text) surface.Box {
	const descending, descent = "gjpqyQ,;()[]|/çęąșț", 0.21 // ems
	width, left, bottom := t.Face.Width(t.Text, t.Size), t.At.X, t.At.Y
	switch t.Align {
	case surface.Center:
		left -= width / 2
	case surface.Right:
		left -= width
	}
	if strings.ContainsAny(t.Text, descending) {
		bottom += descent * t.Size
	}
	return surface.Box{MinX: left, MinY: t.At.Y - surface.CapHeight*t.Size, MaxX: left + width, MaxY: bottom}
}

// join returns the smallest box around both; the zero box is empty.
func join(b, c surface.Box) surface.Box {
	switch (surface.Box{}) {
	case b:
		return c
	case c:
		return b
	}
	return surface.Box{MinX: min(b.MinX, c.MinX), MinY: min(b.MinY, c.MinY), MaxX: max(b.MaxX, c.MaxX), MaxY: max(b.MaxY, c.MaxY)}
}

// boxAround returns the smallest box around points, with a margin.
func boxAround(by float64, points ...surface.Point) surface.Box {
	if len(points) == 0 {
		return surface.Box{}
	}
	b := surface.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, p := range points {
		b = surface.Box{MinX: min(b.MinX, p.X-by), MinY: min(b.MinY, p.Y-by), MaxX: max(b.MaxX, p.X+by), MaxY: max(b.MaxY, p.Y+by)}
	}
	return b
}

// Groups returns the groups that are wanted, at any depth.
func Groups(items []surface.Item, wanted func(surface.Group) bool) (list []surface.Item) {
	for _, item := range items {
		if g, ok := item.(surface.Group); ok {
			if wanted(g) {
				list = append(list, g)
			}
			list = append(list, Groups(g.Items, wanted)...)
		}
	}
	return list
}

// Texts returns the texts, at any depth.
func Texts(items []surface.Item) (list []string) {
	for _, item := range items {
		switch it := item.(type) {
		case surface.Text:
			list = append(list, it.Text)
		case surface.Group:
			list = append(list, Texts(it.Items)...)
		}
	}
	return list
}
