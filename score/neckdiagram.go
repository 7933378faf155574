package score

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
)

// Neck sizes in mm, for a neck of neckWidth; a neck of another width is drawn
// as large.
const (
	neckWidth      = 180.0
	stringGap      = 7.8
	paperStringGap = 6.6 // on a page, where the music needs the room
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
)

// Neck returns the neck seen as tablature is, string 1 on top, with the
// placements of the exercise's scales over one another: frets in true
// proportion, inlays, and as much of the neck as the hand needs, or all of it.
// For a left-handed player it is mirrored.
//
// Home is a filled disc, the first superimposed scale a square, the second a
// diamond, the third a triangle; a spot of several scales shows the shape of
// each around the other. Roots have a ring of their own. Spots that the line
// plays and no placement holds are small and hollow.
func Neck(ex *exercise.Exercise, opt Options) Drawing { return drawNeck(ex, opt, stringGap) }

// drawNeck draws the neck with a distance between its strings.
func drawNeck(ex *exercise.Exercise, opt Options, gap float64) Drawing {
	n := newNeckView(ex, opt)
	n.gap = gap
	d := Drawing{
		Width: n.width, Title: titleOf(ex, Options{}, "neck"), Prefix: opt.Prefix, Theme: opt.Theme,
		Description: n.describe(),
	}
	d.Items = append(d.Items, Group{Class: "neck", Items: slices.Concat(n.wood(), n.strings(), n.spots())})
	legend, bottom := n.legend()
	d.Items = append(d.Items, legend...)
	d.Height = bottom
	return d
}

// A neckView is the part of a neck that is shown.
type neckView struct {
	exercise  *exercise.Exercise
	options   Options
	in        neck.Instrument
	scales    []exercise.Scale // of one section, home first
	from, to  int              // frets shown, as wires; from −1 means that the nut is shown with room for open strings
	width     float64
	left      float64 // x of the first wire shown
	gap       float64 // between strings
	mm        float64 // on paper for a mm of the neck
	radius    float64
	played    map[neck.Spot][]int
	firstNote int
}

func newNeckView(ex *exercise.Exercise, opt Options) *neckView {
	n := &neckView{exercise: ex, options: opt, in: ex.Instrument, scales: sectionOf(ex.Scales, opt.Section), width: neckWidth, radius: spotRadius}
	if opt.Width > 0 {
		n.width = opt.Width
	}
	n.played = map[neck.Spot][]int{}
	for i, note := range ex.Notes {
		n.played[note.Spot] = append(n.played[note.Spot], i)
	}
	n.choose()
	room := 1.0
	n.left = room
	if n.from == 0 {
		n.left = nutRoom
	}
	span := n.in.FretMM(n.to) - n.in.FretMM(n.from)
	if span <= 0 {
		span = 1
	}
	n.mm = (n.width - n.left - room) / span
	if n.to > 0 {
		narrowest := (n.in.FretMM(n.to) - n.in.FretMM(n.to-1)) * n.mm
		n.radius = min(spotRadius, narrowest/tightestFrets)
	}
	return n
}

// sectionOf returns the scales of one section: a home scale and those after
// it up to the next.
func sectionOf(scales []exercise.Scale, section int) []exercise.Scale {
	start, seen := 0, -1
	for i, s := range scales {
		if s.Home || i == 0 {
			if seen == section {
				return scales[start:i]
			}
			start = i
			seen++
		}
	}
	return scales[start:]
}

// choose decides which frets are shown: around every spot, one fret to spare
// on each side, the nut where the hand is near it; the whole neck if asked.
func (n *neckView) choose() {
	n.from, n.to = 0, n.in.LastFret()
	if n.options.Whole || len(n.scales) == 0 && len(n.played) == 0 {
		return
	}
	low, high := n.in.LastFret(), 0
	see := func(fret int) {
		low, high = min(low, fret), max(high, fret)
	}
	for _, s := range n.scales {
		for _, p := range s.Placement.Places {
			see(p.Fret)
		}
	}
	for spot := range n.played {
		see(spot.Fret)
	}
	n.from, n.to = low-2, min(high+1, n.in.LastFret())
	const nearNut = 2
	if n.from <= nearNut {
		n.from = 0
	}
	const fewest = 5
	if n.to-n.from < fewest {
		n.to = min(n.from+fewest, n.in.LastFret())
		n.from = max(0, n.to-fewest)
	}
}

// wire returns the x of a fret's wire.
func (n *neckView) wire(fret int) float64 {
	x := n.left + (n.in.FretMM(fret)-n.in.FretMM(n.from))*n.mm
	return n.mirror(x)
}

// mirror turns x round for a left-handed player.
func (n *neckView) mirror(x float64) float64 {
	if n.in.Left {
		return n.width - x
	}
	return x
}

// finger returns the x where a fret is stopped: the middle before its wire,
// or left of the nut for an open string.
func (n *neckView) finger(fret int) float64 {
	if fret <= 0 {
		return n.mirror(n.left - n.radius - nutWidth - 0.6)
	}
	return (n.wire(fret-1) + n.wire(fret)) / 2
}

// y returns where a string lies.
func (n *neckView) y(number int) float64 {
	return neckEdge + 1.0 + n.gap*float64(number-1)
}

func (n *neckView) shown(fret int) bool {
	return fret > n.from && fret <= n.to || fret == 0 && n.from == 0
}

// wood draws the ground, the window of the home placement, the inlays, the
// frets and the nut.
func (n *neckView) wood() []Item {
	top, bottom := n.y(1)-neckEdge, n.y(n.in.Strings())+neckEdge
	block := func(paint Paint, from, to float64) Shape {
		return Shape{Fill: paint, Path: polygon(Point{from, top}, Point{to, top}, Point{to, bottom}, Point{from, bottom})}
	}
	items := []Item{block(Wood, n.wire(n.from), n.wire(n.to))}
	if len(n.scales) > 0 {
		w := n.scales[0].Placement.Window
		if high := min(w.High, n.to); high > n.from {
			items = append(items, Group{Class: "window", Items: []Item{block(Glow, n.wire(max(w.Low-1, n.from)), n.wire(high))}})
		}
	}
	items = append(items, n.inlays()...)
	frets := Rules{Width: fretWidth, Paint: Hair}
	for fret := max(n.from, 1); fret <= n.to; fret++ {
		frets.Lines = append(frets.Lines, [2]Point{{n.wire(fret), top}, {n.wire(fret), bottom}})
	}
	items = append(items, frets)
	if n.from == 0 {
		x := n.mirror(n.left - nutWidth/2)
		items = append(items, Rules{Lines: [][2]Point{{{x, top}, {x, bottom}}}, Width: nutWidth, Paint: Ink})
	}
	for fret := n.from + 1; fret <= n.to; fret++ {
		if n.numbered(fret) {
			items = append(items, Text{
				Text: strconv.Itoa(fret), At: Point{n.finger(fret), bottom + 1.2 + fretNumber}, Size: fretNumber, Face: Sans, Align: Center, Paint: Soft,
			})
		}
	}
	return items
}

// numbered reports whether a fret bears its number: all of them where there
// is room, else those with an inlay.
func (n *neckView) numbered(fret int) bool {
	const roomy = 14
	return n.to-n.from <= roomy || slices.Contains(n.in.Inlays(), fret+n.in.Capo)
}

// inlays draws the dots of the fingerboard; they are counted from the nut,
// even behind a capo.
func (n *neckView) inlays() []Item {
	var items []Item
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
			items = append(items, Disc{Center: Point{n.finger(fret), middle + dy}, Radius: r, Fill: Inlay})
		}
	}
	return items
}

// strings draws the strings, thicker toward the lowest.
func (n *neckView) strings() []Item {
	var items []Item
	count := n.in.Strings()
	for number := 1; number <= count; number++ {
		width := thinString
		if count > 1 {
			width += (thickString - thinString) * float64(number-1) / float64(count-1)
		}
		y := n.y(number)
		items = append(items, Rules{Lines: [][2]Point{{{n.wire(n.from), y}, {n.wire(n.to), y}}}, Width: width, Paint: Hair})
	}
	return items
}

// A claim is one scale's note on a spot.
type claim struct {
	number int // of the scale: 0 home
	scale  exercise.Scale
	pitch  pitch.Pitch
}

// spots draws every spot of the placements and every other one played, in the
// order of strings and frets.
func (n *neckView) spots() []Item {
	claims := map[neck.Spot][]claim{}
	for number, s := range n.scales {
		for _, place := range s.Placement.Places {
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
	var items []Item
	for _, spot := range all {
		if !n.shown(spot.Fret) || spot.String < 1 || spot.String > n.in.Strings() {
			continue
		}
		at := Point{n.finger(spot.Fret), n.y(spot.String)}
		g := Group{Class: "spot", Notes: n.played[spot]}
		if c := claims[spot]; c != nil {
			for _, each := range c {
				g.Class += " " + classes[Scale(each.number)]
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

// passing draws a spot that the line plays outside its placements.
func (n *neckView) passing(at Point, spot neck.Spot) []Item {
	items := []Item{Disc{Center: at, Radius: n.radius * 0.8, Fill: Paper, Stroke: Soft, Width: 0.3}}
	if notes := n.played[spot]; n.options.Labels == NameLabels && len(notes) > 0 {
		name := n.exercise.Naming.Name(n.exercise.Notes[notes[0]].Pitch.Name)
		items = append(items, n.label(at, name, Soft, 0.75))
	}
	return items
}

// spot draws a spot and its labels.
func (n *neckView) spot(at Point, claims []claim) []Item {
	var items []Item
	r := n.radius
	for i := len(claims) - 1; i >= 0; i-- {
		items = append(items, n.figure(at, claims[i], i, len(claims))...)
	}
	paint := Paper
	if claims[0].number > 0 {
		paint = Scale(claims[0].number)
	}
	var names []string
	for _, c := range claims {
		if name := n.labelOf(c); name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return items
	}
	if len(names) > 1 {
		// two names: each on its own half of the spot
		small := 0.68
		up, down := Point{at.X, at.Y - r*0.36}, Point{at.X, at.Y + r*0.36}
		return append(items, n.label(up, names[0], paint, small), n.label(down, strings.Join(names[1:], " "), paint, small))
	}
	return append(items, n.label(at, names[0], paint, 1))
}

// label draws text in the middle of a spot, as large as fits.
func (n *neckView) label(at Point, text string, paint Paint, scale float64) Text {
	size := labelHeight * n.radius / spotRadius * scale
	if wide := Sans.Width(text, size); wide > 1.72*n.radius {
		size *= 1.72 * n.radius / wide
	}
	return Text{Text: text, At: Point{at.X, at.Y + size*capHeight/2}, Size: size, Face: SansBold, Align: Center, Paint: paint}
}

// labelOf returns what stands on a spot for one scale.
func (n *neckView) labelOf(c claim) string {
	switch n.options.Labels {
	case DegreeLabels:
		for i, name := range c.scale.Notes {
			if name == c.pitch.Name && i < len(c.scale.Type.Degrees) {
				return c.scale.Type.Degrees[i].Symbol()
			}
		}
		return ""
	case NoLabels:
		return ""
	}
	return n.exercise.Naming.Name(c.pitch.Name)
}
