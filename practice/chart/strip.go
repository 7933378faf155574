package chart

import (
	"heddle/practice"
	"heddle/score/surface"
)

// Strip is a small picture of an item: twelve keys from C, with a dot for each
// place, filled by how near the fastest clean tempo is to the target. A place
// never played is a small hollow dot, a key outside of the scope is blank.
func Strip(it practice.ItemGrid) surface.Drawing {
	const key, dot, row = 5.0, 1.5, 4.0
	d := surface.Drawing{Width: 12 * key, Height: row, Title: "Keys and places of " + it.Title, Description: "See the item's own page in words."}
	places := placesOf(it)
	for _, u := range it.Units {
		at := surface.Pt((float64(u.Class())+0.5)*key, row/2)
		for i, place := range places {
			if place == u.Place() {
				at.Y += float64(i) * row
				d.Height = max(d.Height, float64(i+1)*row)
			}
		}
		switch {
		case u.Runs == 0:
			d.Items = append(d.Items, surface.Disc{Center: at, Radius: dot / 3, Stroke: surface.Hair, Width: 0.25})
		default:
			d.Items = append(d.Items, surface.Disc{Center: at, Radius: dot, Stroke: surface.Ink, Width: 0.25})
			if u.Fastest > 0 {
				d.Items = append(d.Items, surface.Disc{Center: at, Radius: dot * min(1, u.Fastest/it.Target), Fill: surface.Scale(0)})
			}
		}
	}
	return d
}
