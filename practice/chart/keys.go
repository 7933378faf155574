package chart

import (
	"fmt"
	"slices"

	"heddle/pitch"
	"heddle/practice"
	"heddle/score/surface"
)

// Sizes of the grid of keys in mm.
const (
	nameRoom = 46.0
	cellStep = 11.0
	cellSize = 9.0
	cellHigh = 7.0
	cellDown = 8.5
	mostRows = 40 // so that a large shelf stays readable
)

// keys draws, for each item, a row for each of its places and a column for each
// key: the height of a bar is the fastest clean tempo against the target, a
// line across the top says that it is reached, and a dot that it was played and
// never clean.
func keys(p *practice.Progress) surface.Drawing {
	d := surface.Drawing{Width: width}
	if len(p.Items) == 0 {
		return d
	}
	for class := range 12 {
		name := pitch.PlainName(class, true)
		d.Items = append(d.Items, label(name.Symbol(), columnOf(class)+cellSize/2, textSize, surface.Center))
	}
	y, rows := textSize+2, 0
	for _, it := range p.Items {
		places := placesOf(it)
		if rows += len(places); rows > mostRows {
			d.Items = append(d.Items, label("… and more: each item has its own grid on the shelf", 0, y+cellHigh-1.5, surface.Left))
			y += cellDown
			break
		}
		for i, place := range places {
			if i == 0 {
				d.Items = append(d.Items, surface.Text{Text: fitted(it.Title, nameRoom-14), At: surface.Pt(0, y+cellHigh-1.5), Size: textSize, Face: surface.Sans, Paint: surface.Ink})
			}
			d.Items = append(d.Items, label(fretOf(it, place), nameRoom-1, y+cellHigh-1.5, surface.Right))
			d.Items = append(d.Items, rule(surface.Hair, 0.15, nameRoom, y+cellHigh, width, y+cellHigh))
			for _, u := range it.Units {
				if u.Place() == place {
					d.Items = append(d.Items, cell(u, it.Target, columnOf(u.Class()), y)...)
				}
			}
			y += cellDown
		}
		y += 1.5
	}
	d.Height = y
	return d
}

// fretOf says where a place lies in the first key that the item has there.
func fretOf(it practice.ItemGrid, place int) string {
	for _, u := range it.Units {
		if u.Place() == place && u.Fret == 0 {
			return "open"
		} else if u.Place() == place {
			return fmt.Sprintf("fret %d", u.Fret)
		}
	}
	return ""
}

func columnOf(class int) float64 { return nameRoom + float64(class)*cellStep + 1 }

// placesOf lists an item's places, its own first.
func placesOf(it practice.ItemGrid) (places []int) {
	for _, u := range it.Units {
		if !slices.Contains(places, u.Place()) {
			places = append(places, u.Place())
		}
	}
	return places
}

// cell draws a unit; one never played has nothing.
func cell(u practice.GridUnit, target, x, y float64) []surface.Item {
	if u.Runs == 0 {
		return nil
	}
	if u.Fastest == 0 {
		return []surface.Item{surface.Disc{Center: surface.Pt(x+cellSize/2, y+cellHigh-1.6), Radius: 0.9, Stroke: surface.Ink, Width: 0.3}}
	}
	share := min(1, u.Fastest/target)
	items := []surface.Item{bar(surface.Scale(0), x, y+cellHigh*(1-share), cellSize, cellHigh*share)}
	if share >= 1 {
		items = append(items, rule(surface.Ink, 0.6, x, y, x+cellSize, y))
	}
	figure := surface.Text{Text: fmt.Sprintf("%.0f", u.Fastest), At: surface.Pt(x+cellSize/2, y+cellHigh-1.2), Size: 3, Face: surface.SansBold, Align: surface.Center, Paint: surface.Paper}
	if cellHigh*share < 4 {
		figure.Paint, figure.At.Y = surface.Ink, y+cellHigh*(1-share)-0.8
	}
	return append(items, figure)
}
