package fretboard

import (
	"cmp"
	"slices"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/surface"
)

// A claim is one scale's note on a spot.
type claim struct {
	number int // of the scale: 0 home
	scale  exercise.Scale
	pitch  pitch.Pitch
}

// spots draws every spot of the placements and every other one played, in the
// order of strings and frets.
func (n *view) spots() []surface.Item {
	claims := map[neck.Spot][]claim{}
	for number, s := range n.scales {
		for _, place := range s.Placement.AllPlaces() {
			claims[place.Spot] = append(claims[place.Spot], claim{number, s, place.Pitch})
		}
	}
	all := make([]neck.Spot, 0, len(claims)+len(n.played))
	for spot := range claims {
		all = append(all, spot)
	}
	for spot := range n.played {
		if claims[spot] == nil {
			all = append(all, spot)
		}
	}
	slices.SortFunc(all, func(a, b neck.Spot) int { return cmp.Or(a.String-b.String, a.Fret-b.Fret) })
	var items []surface.Item
	for _, spot := range all {
		if !n.shown(spot.Fret) || spot.String < 1 || spot.String > n.in.Strings() {
			continue
		}
		at := surface.Pt(n.finger(spot.Fret), n.y(spot.String))
		g := surface.Group{Class: "spot", ID: SpotID(spot)}
		if c := claims[spot]; c != nil {
			for _, each := range c {
				g.Class += " " + surface.ScaleClass(each.number)
			}
			g.Items = n.spot(at, c)
		} else {
			g.Class += " passing"
			g.Items = n.passing(at, spot)
		}
		items = append(items, g)
	}
	return items
}

// passing draws a spot that the line plays outside its placements: small and
// hollow, in the figure of the note's scale, or a grey disc for a note of none.
func (n *view) passing(at surface.Point, spot neck.Spot) []surface.Item {
	number, paint := line.Chromatic, surface.Soft
	if notes := n.played[spot]; len(notes) > 0 {
		if number = n.exercise.ScaleNumber(n.exercise.Notes[notes[0]].Scale); number >= 0 {
			paint = surface.Scale(number)
		}
	}
	items := []surface.Item{surface.ScaleFigure(number, at, n.radius*0.8, surface.Paper, paint, 0.3)}
	if notes := n.played[spot]; n.options.Labels == NameLabels && len(notes) > 0 {
		name := n.exercise.Naming.Name(n.exercise.Notes[notes[0]].Pitch.Name)
		items = append(items, n.label(at, name, paint, 0.75))
	}
	return items
}

// ringGap is how far outside its spot a root's ring lies, in radii.
const ringGap = 1.28

// figure draws the shape of one scale on a spot. The first of several scales
// has the spot; each further one is drawn around it.
func (n *view) figure(at surface.Point, c claim, order, of int) []surface.Item {
	paint := surface.Scale(c.number)
	r := n.radius
	if of > 1 {
		r *= 0.84 + 0.27*float64(order) // inner figures are smaller, outer ones larger
	}
	line := max(0.3, n.radius*0.16)
	var items []surface.Item
	if c.pitch.Name == c.scale.Root && order == 0 {
		items = append(items, surface.ScaleFigure(c.number, at, r*ringGap, surface.Paper, paint, line*0.8))
	}
	fill := paint
	if c.number > 0 {
		fill = surface.Paper
	}
	return append(items, surface.ScaleFigure(c.number, at, r, fill, paint, line))
}

// spot draws a spot with the figures of all its scales. The innermost has the
// label: home's, or that of the first scale superimposed there.
func (n *view) spot(at surface.Point, claims []claim) []surface.Item {
	var items []surface.Item
	for i := len(claims) - 1; i >= 0; i-- {
		items = append(items, n.figure(at, claims[i], i, len(claims))...)
	}
	paint := surface.Paper
	if claims[0].number > 0 {
		paint = surface.Scale(claims[0].number)
	}
	if name := n.labelOf(claims[0]); name != "" {
		items = append(items, n.label(at, name, paint, 1))
	}
	return items
}

// label draws text in the middle of a spot, as large as fits.
func (n *view) label(at surface.Point, text string, paint surface.Paint, scale float64) surface.Text {
	size := labelHeight * n.radius / spotRadius * scale
	if wide := surface.Sans.Width(text, size); wide > 1.72*n.radius {
		size *= 1.72 * n.radius / wide
	}
	return surface.Text{Text: text, At: surface.Pt(at.X, at.Y+size*surface.CapHeight/2), Size: size, Face: surface.SansBold, Align: surface.Center, Paint: paint}
}

// labelOf returns the label of a spot for one scale.
func (n *view) labelOf(c claim) string {
	switch n.options.Labels {
	case DegreeLabels:
		if n.chord.Degrees == nil {
			return ""
		}
		return n.chord.Degree(c.pitch.Name, c.scale.Scale).Symbol()
	case NoLabels:
		return ""
	}
	return n.exercise.Naming.Name(c.pitch.Name)
}
