package chart

import (
	"fmt"
	"math"
	"strconv"

	"heddle/practice"
	"heddle/score/surface"
)

// Sizes of a neck in mm.
const (
	stringStep = 7.0
	nutAt      = 10.0
	mostRadius = 3.0
	fretsShown = 17 // at least, as far as twelve and a hand
)

// A spot is a disc on the neck: its area is a share of the ring around it.
type spot struct {
	string, fret int
	share        float64
}

// onNeck draws spots on a neck seen as tablature is, string 1 on top, with
// frets at even distances so that every spot has the same room.
func onNeck(spots []spot, legend string) surface.Drawing {
	d := surface.Drawing{Width: width}
	if len(spots) == 0 {
		return d
	}
	strings, frets := 6, fretsShown
	for _, s := range spots {
		strings, frets = max(strings, s.string), max(frets, s.fret)
	}
	step := (width - nutAt) / float64(frets)
	top := mostRadius + 1
	bottom := top + float64(strings-1)*stringStep
	x := func(fret int) float64 {
		if fret == 0 {
			return nutAt / 2
		}
		return nutAt + (float64(fret)-0.5)*step
	}
	for s := range strings {
		y := top + float64(s)*stringStep
		d.Items = append(d.Items, rule(surface.Hair, 0.2+0.06*float64(s), nutAt, y, width, y))
	}
	for f := range frets + 1 {
		thick := 0.35
		if f == 0 {
			thick = 1.1
		}
		d.Items = append(d.Items, rule(surface.Hair, thick, nutAt+float64(f)*step, top, nutAt+float64(f)*step, bottom))
		if f > 0 {
			d.Items = append(d.Items, label(strconv.Itoa(f), x(f), bottom+mostRadius+4, surface.Center))
		}
	}
	for _, s := range spots {
		at := surface.Pt(x(s.fret), top+float64(s.string-1)*stringStep)
		d.Items = append(d.Items, surface.Disc{Center: at, Radius: mostRadius, Fill: surface.Paper, Stroke: surface.Ink, Width: 0.3})
		if s.share > 0 {
			d.Items = append(d.Items, surface.Disc{Center: at, Radius: mostRadius * math.Sqrt(min(1, s.share)), Fill: surface.Scale(1)})
		}
	}
	d.Height = bottom + mostRadius + 11
	d.Items = append(d.Items, label(legend, 0, d.Height-1, surface.Left))
	return d
}

// fullDisc is the error rate that fills a ring: one note in two fails.
const fullDisc = 0.5

func misses(p *practice.Progress) surface.Drawing {
	var spots []spot
	for _, s := range p.Neck {
		spots = append(spots, spot{s.String, s.Fret, float64(s.Misses) / float64(s.Tries) / fullDisc})
	}
	return onNeck(spots, "An empty ring: played, and never missed. A full disc: every second note fails. No ring: not played in a marked take.")
}

// slowest is the time to answer that fills a ring, in seconds.
const slowest = 6.0

func asked(p *practice.Progress) surface.Drawing {
	type place struct{ string, fret int }
	sums := make(map[place]practice.AskedCount)
	var order []place
	for _, a := range p.Asked {
		at := place{a.String, a.Fret}
		sum, known := sums[at]
		if !known {
			order = append(order, at)
		}
		sum.Seconds += a.Seconds*float64(a.Right) + slowest*float64(a.Asked-a.Right)
		sum.Asked += a.Asked
		sums[at] = sum
	}
	var spots []spot
	for _, at := range order {
		spots = append(spots, spot{at.string, at.fret, sums[at].Seconds / float64(sums[at].Asked) / slowest})
	}
	return onNeck(spots, fmt.Sprintf("The fuller, the slower: a full disc is %.0f seconds to answer, and a wrong answer counts as that. No ring: never asked.", slowest))
}

// moves draws a bar for each weak move, with the average beside it.
func moves(p *practice.Progress) surface.Drawing {
	d := surface.Drawing{Width: width}
	const room, most = 84.0, 12
	scale := width - room - 34
	y := 0.0
	for _, w := range p.Weak[:min(most, len(p.Weak))] {
		rate := float64(w.Misses) / float64(w.Tries)
		d.Items = append(d.Items,
			surface.Text{Text: fitted(w.Move, room-2), At: surface.Pt(0, y+4.4), Size: textSize, Face: surface.Sans, Paint: surface.Ink},
			bar(surface.Scale(1), room, y+1, rate*scale, 4.5),
			label(fmt.Sprintf("%d of %d, %.0f %%", w.Misses, w.Tries, 100*rate), room+rate*scale+2, y+4.4, surface.Left),
			rule(surface.Ink, 0.5, room+p.Average*scale, y, room+p.Average*scale, y+6.5))
		y += 6.5
	}
	if y > 0 {
		d.Items = append(d.Items, label(fmt.Sprintf("The line is your average, %.0f %%.", 100*p.Average), room, y+4.5, surface.Left))
		y += 6
	}
	d.Height = y
	return d
}
