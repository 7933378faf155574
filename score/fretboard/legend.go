package fretboard

import (
	"fmt"
	"strings"

	"heddle/exercise"
	"heddle/neck"
	"heddle/score/surface"
)

// legend draws, beneath the neck, each scale's figure and line, its name, and
// its window; and over the frets of the window the line itself.
func (n *view) legend() (items []surface.Item, bottom float64) {
	y := n.y(n.in.Strings()) + neckEdge + fretNumber + 3.2
	for number, s := range n.scales {
		items = append(items, n.windowLine(number, s, y))
		y += 2.2
	}
	y += 0.6
	x := 1.0
	for number, s := range n.scales {
		text := n.placementText(s)
		width := 14 + surface.Sans.Width(text, legendSize)
		if x > 1 && x+width > n.width {
			x, y = 1, y+legendLine
		}
		middle := y + legendLine/2
		small := *n
		small.radius = 1.5
		figure := small.figure(surface.Pt(x+1.8, middle), claim{number: number, scale: s}, 0, 1)
		line := surface.Rules{Lines: [][2]surface.Point{{surface.Pt(x+4.6, middle), surface.Pt(x+11.6, middle)}}, Width: 0.32, Paint: surface.Scale(number), Dash: surface.ScaleDash(number, legendUnit)}
		items = append(items, append(figure, line, surface.Text{
			Text: text, At: surface.Pt(x+13, middle+legendSize*surface.CapHeight/2), Size: legendSize, Face: surface.Sans, Paint: surface.Scale(number),
		})...)
		x += width + 6
	}
	if text := n.degreesText(); text != "" {
		if x > 1 && x+surface.Sans.Width(text, legendSize) > n.width {
			x, y = 1, y+legendLine
		}
		items = append(items, surface.Text{
			Text: text, At: surface.Pt(x, y+legendLine/2+legendSize*surface.CapHeight/2), Size: legendSize, Face: surface.Sans, Paint: surface.Soft,
		})
	}
	if len(n.scales) > 0 {
		y += legendLine
	}
	return items, y + 0.5
}

// degreesText says what the degrees on the neck are relative to: the chord that
// the section begins over. It is empty where no degrees are shown.
func (n *view) degreesText() string {
	if n.options.Labels != DegreeLabels || n.chord.Degrees == nil {
		return ""
	}
	return "degrees over " + n.chord.Display(n.exercise.Naming)
}

// legendUnit is the unit in mm of the dashes: the staff space of a printed
// part, so that they look as they do in the brackets over the staff.
const legendUnit = 1.55

// windowLine draws the window of a placement as a line beneath its frets.
func (n *view) windowLine(number int, s exercise.Scale, y float64) surface.Item {
	low, high := max(s.Placement.Window.Low-1, n.from), min(s.Placement.Window.High, n.to)
	from, to := n.wire(low), n.wire(max(high, low))
	if s.Placement.Window.Low == 0 {
		from = n.finger(0)
	}
	return surface.Rules{Lines: [][2]surface.Point{{surface.Pt(from, y), surface.Pt(to, y)}}, Width: 0.45, Paint: surface.Scale(number), Dash: surface.ScaleDash(number, legendUnit)}
}

// placementText names a placement: its scale, window and root.
func (n *view) placementText(s exercise.Scale) string {
	w := s.Placement.Window
	text := n.exercise.Naming.Scale(s.Scale)
	if s.Away != "" {
		text += ", " + s.Away
	}
	if len(s.Placement.Places) > 0 {
		text += fmt.Sprintf(", frets %d–%d", w.Low, w.High)
	}
	if s.Placement.RootString > 0 {
		text += fmt.Sprintf(", root on string %d", s.Placement.RootString)
	}
	return text
}

// describe says what the neck shows: each spot by name, where names are shown.
func (n *view) describe() string {
	var out strings.Builder
	hand := ""
	if n.in.Left {
		hand = "left-handed "
	}
	fmt.Fprintf(&out, "Neck of a %s%s with %d strings, frets %d to %d.", hand, instrumentName(n.in), n.in.Strings(), max(n.from, 0), n.to)
	for _, s := range n.scales {
		fmt.Fprintf(&out, " %s:", n.placementText(s))
		for i, p := range s.Placement.AllPlaces() {
			if i > 0 {
				out.WriteByte(',')
			}
			if !n.options.NoNames && n.options.Labels != NoLabels {
				out.WriteString(" " + n.exercise.Naming.Name(p.Pitch.Name))
			}
			fmt.Fprintf(&out, " string %d fret %d", p.String, p.Fret)
		}
		out.WriteByte('.')
	}
	if text := n.degreesText(); text != "" {
		out.WriteString(" Labelled with " + text + ".")
	}
	return out.String()
}

func instrumentName(in neck.Instrument) string {
	if in.Name == "" {
		return "fretted instrument"
	}
	return in.Name
}
