package fretboard

import (
	"cmp"
	"slices"
	"strconv"

	"heddle/exercise"
	"heddle/score/surface"
)

// Neck sizes in mm, for a neck of neckWidth; a neck of another width is drawn
// as large.
const (
	neckWidth      = 180.0
	stringGap      = 7.8
	paperStringGap = 6.6
	nameRoom       = 5.0 // for the strings' names, left of all
	nutRoom        = 9.0 // for the open strings, left of the nut
	neckEdge       = 4.2 // from the outer strings to the edge of the wood
	spotRadius     = 2.95
	labelHeight    = 3.25 // size of a spot's label
	fretNumber     = 3.0
	legendSize     = 3.2
	legendLine     = 5.4
	nutWidth       = 1.3
	fretWidth      = 0.45
	thinString     = 0.22
	thickString    = 0.62
	tightestFrets  = 2.2 // spot radii that the narrowest fret shown must hold
	widestSpot     = 0.4 // radius of a spot in gaps between strings
)

// Draw returns the neck with the placements of the exercise's scales over one
// another, and as much of it as the hand needs, or all of it.
//
// Home is a filled disc, the first superimposed scale a square, the second a
// diamond, the third a triangle, the fourth a hexagon, the fifth a triangle on
// its point; a spot of several scales shows the shape of each around the other,
// and one label, home's or else that of the first scale there, as the innermost
// shape. Roots have an extra ring. Spots that the line plays outside all
// placements are small and hollow.
func Draw(ex *exercise.Exercise, opt Options) surface.Drawing {
	n := newView(ex, opt)
	d := surface.Drawing{
		Width: n.width, Title: cmp.Or(opt.Title, ex.Sentence, "neck"), Prefix: opt.Prefix, Theme: opt.Theme,
		Description: n.describe(),
	}
	d.Items = append(d.Items, surface.Group{Class: "neck", Items: slices.Concat(n.wood(), n.strings(), n.stringNames(), n.spots())})
	legend, bottom := n.legend()
	d.Items = append(d.Items, legend...)
	d.Height = bottom
	return d
}

// wood draws the ground, the window of the home placement, the inlays, the
// frets and the nut.
func (n *view) wood() []surface.Item {
	top, bottom := n.y(1)-neckEdge, n.y(n.in.Strings())+neckEdge
	block := func(paint surface.Paint, from, to float64) surface.Shape {
		return surface.Shape{Fill: paint, Path: surface.Polygon(surface.Pt(from, top), surface.Pt(to, top), surface.Pt(to, bottom), surface.Pt(from, bottom))}
	}
	items := []surface.Item{block(surface.Wood, n.wire(n.from), n.wire(n.to))}
	if len(n.scales) > 0 {
		w := n.scales[0].Placement.Window
		if high := min(w.High, n.to); high > n.from {
			items = append(items, surface.Group{Class: "window", Items: []surface.Item{block(surface.Glow, n.wire(max(w.Low-1, n.from)), n.wire(high))}})
		}
	}
	items = append(items, n.inlays()...)
	frets := surface.Rules{Width: fretWidth, Paint: surface.Hair}
	for fret := max(n.from, 1); fret <= n.to; fret++ {
		frets.Lines = append(frets.Lines, [2]surface.Point{surface.Pt(n.wire(fret), top), surface.Pt(n.wire(fret), bottom)})
	}
	items = append(items, frets)
	if n.from == 0 {
		x := n.mirror(n.left - nutWidth/2)
		items = append(items, surface.Rules{Lines: [][2]surface.Point{{surface.Pt(x, top), surface.Pt(x, bottom)}}, Width: nutWidth, Paint: surface.Ink})
	}
	for fret := n.from + 1; fret <= n.to; fret++ {
		if n.numbered(fret) {
			items = append(items, surface.Text{
				Text: strconv.Itoa(fret), At: surface.Pt(n.finger(fret), bottom+1.2+fretNumber), Size: fretNumber, Face: surface.Sans, Align: surface.Center, Paint: surface.Soft,
			})
		}
	}
	return items
}

// numbered reports whether a fret is numbered: all of them where there is room,
// otherwise those with an inlay.
func (n *view) numbered(fret int) bool {
	const roomy = 14
	return n.to-n.from <= roomy || slices.Contains(n.in.Inlays(), fret+n.in.Capo)
}

// inlays draws the dots of the fingerboard; they are counted from the nut,
// even behind a capo.
func (n *view) inlays() []surface.Item {
	var items []surface.Item
	middle := (n.y(1) + n.y(n.in.Strings())) / 2
	for _, inlay := range n.in.Inlays() {
		fret := inlay - n.in.Capo
		if fret <= n.from || fret > n.to {
			continue
		}
		r := min(1.5, n.radius*0.6)
		offsets := []float64{0}
		if inlay%12 == 0 {
			// between strings, and well apart on a wide neck
			apart := 1.0
			if n.in.Strings()%2 == 1 {
				apart = 1.5
			} else if n.in.Strings() > 6 {
				apart = 2
			}
			offsets = []float64{-apart * n.gap, apart * n.gap}
		}
		for _, dy := range offsets {
			items = append(items, surface.Disc{Center: surface.Pt(n.finger(fret), middle+dy), Radius: r, Fill: surface.Inlay})
		}
	}
	return items
}

// strings draws the strings, thicker toward the lowest.
func (n *view) strings() []surface.Item {
	var items []surface.Item
	count := n.in.Strings()
	for number := 1; number <= count; number++ {
		width := thinString
		if count > 1 {
			width += (thickString - thinString) * float64(number-1) / float64(count-1)
		}
		y := n.y(number)
		items = append(items, surface.Rules{Lines: [][2]surface.Point{{surface.Pt(n.wire(n.from), y), surface.Pt(n.wire(n.to), y)}}, Width: width, Paint: surface.Hair})
	}
	return items
}

// stringNames names the open strings as they are tuned, and the capo.
func (n *view) stringNames() []surface.Item {
	var items []surface.Item
	for i, open := range n.in.Open {
		y := n.y(i+1) + fretNumber*surface.CapHeight/2
		items = append(items, surface.Text{
			Text: n.exercise.Naming.Name(open.Name), At: surface.Pt(n.mirror(nameRoom/2-0.4), y), Size: fretNumber, Face: surface.Sans, Align: surface.Center, Paint: surface.Soft,
		})
	}
	if n.in.Capo > 0 && n.from == 0 {
		y := n.y(n.in.Strings()) + neckEdge + 1.2 + fretNumber
		items = append(items, surface.Text{
			Text: "capo " + strconv.Itoa(n.in.Capo), At: surface.Pt(n.mirror(n.left-nutWidth/2), y), Size: fretNumber, Face: surface.Sans, Align: surface.Center, Paint: surface.Soft,
		})
	}
	return items
}
