package chart

import (
	"fmt"
	"math"
	"time"

	"heddle/practice"
	"heddle/score/surface"
)

// A4 in mm (ISO 216), and the margin.
const (
	paperWidth  = 210.0
	paperHeight = 297.0
	margin      = 15.0
)

// Year is one A4 page of what was done in a year: a calendar in which each
// day's disc grows with its minutes, the sums, and the items with how far they
// have come.
func Year(p *practice.Progress, year int) surface.Drawing {
	d := surface.Drawing{Width: paperWidth, Height: paperHeight, Title: fmt.Sprintf("Practice in %d", year), Description: "A calendar of practice."}
	first, last := fmt.Sprintf("%d-01-01", year), fmt.Sprintf("%d-12-31", year)
	days := 0
	byDay := make(map[string]float64)
	for _, day := range p.Days {
		if day.Day >= first && day.Day <= last {
			days++
			byDay[day.Day] = day.Seconds / 60
		}
	}
	sum := p.Minutes(first, last)
	d.Items = append(d.Items,
		surface.Text{Text: fmt.Sprintf("Practice in %d", year), At: surface.Pt(margin, margin+8), Size: 9, Face: surface.SerifBold, Paint: surface.Ink},
		surface.Text{Text: fmt.Sprintf("%d hours and %d minutes on %d days.", sum/60, sum%60, days), At: surface.Pt(margin, margin+17), Size: 4.6, Face: surface.Serif, Paint: surface.Ink})
	y := margin + 30
	d.Items = append(d.Items, calendar(byDay, year, y)...)
	y += 12*11 + 6
	d.Items = append(d.Items, label("A disc's area is the day's minutes; a full ring is an hour or more. Days without practice stay blank.", margin, y, surface.Left))
	y += 13
	d.Items = append(d.Items, surface.Text{Text: "On the shelf", At: surface.Pt(margin, y), Size: 5.6, Face: surface.SerifBold, Paint: surface.Ink})
	y += 8
	for _, it := range p.Items {
		if y > paperHeight-margin-10 {
			d.Items = append(d.Items, label("… and more", margin, y, surface.Left))
			break
		}
		d.Items = append(d.Items, itemLine(it, y)...)
		y += 7
	}
	d.Items = append(d.Items, label("heddle, "+p.Day, paperWidth-margin, paperHeight-margin, surface.Right))
	return d
}

// calendar draws a row for each month and a column for each day.
func calendar(byDay map[string]float64, year int, top float64) (items []surface.Item) {
	const names, step, row = 14.0, 5.3, 11.0
	for day := 1; day <= 31; day++ {
		items = append(items, label(fmt.Sprint(day), margin+names+(float64(day)-0.5)*step, top-4, surface.Center))
	}
	for month := time.January; month <= time.December; month++ {
		y := top + float64(month-1)*row + row/2
		items = append(items, surface.Text{Text: month.String()[:3], At: surface.Pt(margin, y+1.2), Size: 3.6, Face: surface.Sans, Paint: surface.Ink},
			rule(surface.Hair, 0.12, margin+names, y, paperWidth-margin, y))
		for day := time.Date(year, month, 1, 0, 0, 0, 0, time.UTC); day.Month() == month; day = day.AddDate(0, 0, 1) {
			minutes := byDay[practice.Day(day)]
			if minutes == 0 {
				continue
			}
			at := surface.Pt(margin+names+(float64(day.Day())-0.5)*step, y)
			items = append(items, surface.Disc{Center: at, Radius: 2.5 * math.Sqrt(min(1, minutes/60)), Fill: surface.Scale(0)})
			if minutes >= 60 {
				items = append(items, surface.Disc{Center: at, Radius: 2.6, Stroke: surface.Ink, Width: 0.25})
			}
		}
	}
	return items
}

// itemLine says how far an item has come.
func itemLine(it practice.ItemGrid, y float64) []surface.Item {
	played, fastest := 0, 0.0
	for _, u := range it.Units {
		if u.Runs > 0 {
			played++
		}
		fastest = max(fastest, u.Fastest)
	}
	const names, length = 84.0, 52.0
	x := margin + names
	said := fmt.Sprintf("%d of %d units", played, len(it.Units))
	if fastest > 0 {
		said += fmt.Sprintf(", clean at %.0f of %.0f", fastest, it.Target)
	}
	return []surface.Item{
		surface.Text{Text: fitted(it.Title, names-3), At: surface.Pt(margin, y), Size: textSize + 0.3, Face: surface.Sans, Paint: surface.Ink},
		rule(surface.Hair, 0.2, x, y, x+length-4, y),
		bar(surface.Scale(0), x, y-2.4, (length-4)*min(1, fastest/it.Target), 2.4),
		label(said, x+length, y, surface.Left),
	}
}
