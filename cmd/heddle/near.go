package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
)

// nearCommand ranks the places where the scales lie under one hand.
type nearCommand struct {
	JSON bool `name:"json" help:"Print every pair as JSON." group:"output"`
	All  bool `help:"List every pair, not just the best ten." group:"output"`
}

// Help comes before the flags.
func (nearCommand) Help() string {
	return `For each placement of the home scale, the placements of the other scales
that the hand reaches with the least movement: best first, and why.

  heddle near --home "G minor pentatonic" --superimpose "semitone up"`
}

// Bounds of what is shown in a terminal.
const (
	nearListed = 10
	nearDrawn  = 3
)

// Run ranks and prints.
func (c *nearCommand) Run(s streams, flags given) error {
	var spec exercise.Spec
	if err := flags.apply(&spec); err != nil {
		return err
	}
	places, err := exercise.Near(spec)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, places)
	}
	_, err = io.WriteString(s.out, nearText(places, c.All))
	return err
}

// nearText lists the pairs, the first of them with a small neck.
func nearText(places *exercise.Places, all bool) string {
	var b strings.Builder
	names := make([]string, len(places.Scales))
	for i, s := range places.Scales {
		names[i] = places.Naming.Scale(s)
	}
	fmt.Fprintf(&b, "%s: %s, best first.\n", strings.Join(names, " and "), pitch.Count(len(places.Pairs), "place"))
	for i, pair := range places.Pairs {
		if i == nearListed && !all {
			fmt.Fprintf(&b, "\n%d more with --all.\n", len(places.Pairs)-i)
			break
		}
		fmt.Fprintf(&b, "\n%2d  frets %s: %s\n", i+1, pair.Frets(), pair.Why)
		if i < nearDrawn {
			b.WriteString("\n" + neckText(places, pair))
		}
	}
	b.WriteString("\n" + neckLegend(places.Scales, places.Naming))
	return b.String()
}

// marks enclose a name on the text neck by the scale it belongs to; the last
// pair encloses a name of several scales.
var marks = []string{"[]", "()", "<>", "//", `\\`, "::"}

const sharedMarks = "{}"

func neckLegend(scales []pitch.Scale, naming pitch.Naming) string {
	var parts []string
	for i, s := range scales {
		parts = append(parts, fmt.Sprintf("%c%s%c %s", marks[i][0], naming.Name(s.Root), marks[i][1], s.Type.Symbol()))
	}
	if len(scales) > 1 {
		parts = append(parts, "{} both")
	}
	return strings.Join(parts, "   ") + "\n"
}

// neckText draws the frets of a pair, string 1 on top, the note names in the
// marks of their scales.
func neckText(places *exercise.Places, pair neck.Pair) string {
	placements := append([]neck.Placement{pair.Home}, pair.Superimposed...)
	low, high := pair.Home.Window.Low, pair.Home.Window.High
	for _, p := range placements {
		low, high = min(low, p.Window.Low), max(high, p.Window.High)
	}
	var b strings.Builder
	frets := ""
	for fret := low; fret <= high; fret++ {
		frets += centre(strconv.Itoa(fret), cellWidth+1, ' ')
	}
	b.WriteString(strings.Repeat(" ", tabLabel) + strings.TrimRight(frets, " ") + "\n")
	for s := 1; s <= places.Instrument.Strings(); s++ {
		fmt.Fprintf(&b, "%s |", label(places.Naming.Name(places.Instrument.Open[s-1].Name)))
		for fret := low; fret <= high; fret++ {
			b.WriteString(centre(spotText(places.Naming, placements, neck.Spot{String: s, Fret: fret}), cellWidth, '-') + "|")
		}
		b.WriteString("\n")
	}
	return b.String()
}

// cellWidth is the width of one fret on the text neck.
const cellWidth = 6

// spotText is the marked name at a spot, empty where no scale has a note.
func spotText(naming pitch.Naming, placements []neck.Placement, at neck.Spot) string {
	name, enclose := "", ""
	for i, p := range placements {
		for _, place := range p.AllPlaces() {
			if place.Spot != at {
				continue
			}
			if name != "" {
				enclose = sharedMarks
				continue
			}
			name, enclose = naming.Name(place.Pitch.Name), marks[i]
		}
	}
	if name == "" {
		return ""
	}
	return enclose[:1] + name + enclose[1:]
}

func centre(text string, width int, fill rune) string {
	room := max(0, width-len([]rune(text)))
	return strings.Repeat(string(fill), room/2) + text + strings.Repeat(string(fill), room-room/2)
}
