package chart

import (
	"fmt"
	"time"

	"heddle/practice"
	"heddle/score/surface"
)

// daysShown is how many days the picture of minutes has: twelve weeks.
const daysShown = 84

const plotHeight = 32.0

// minutes draws a bar for each of the last days, and a figure for each week.
func minutes(p *practice.Progress) surface.Drawing {
	d := surface.Drawing{Width: width}
	today, err := time.Parse(practice.DayLayout, p.Day)
	if err != nil || len(p.Days) == 0 {
		return d
	}
	first := today.AddDate(0, 0, 1-daysShown)
	byDay := make(map[string]float64)
	most := 30.0
	for _, day := range p.Days {
		byDay[day.Day] = day.Seconds / 60
		if day.Day >= practice.Day(first) && day.Day <= p.Day {
			most = max(most, day.Seconds/60)
		}
	}
	left := 12.0
	step := (width - left) / daysShown
	base := plotHeight + 4
	for _, at := range []float64{0, most / 2, most} {
		y := base - at/most*plotHeight
		d.Items = append(d.Items, rule(surface.Hair, 0.15, left, y, width, y), label(fmt.Sprintf("%.0f", at), left-2, y+1.1, surface.Right))
	}
	for i := range daysShown {
		day := first.AddDate(0, 0, i)
		x := left + float64(i)*step
		if m := byDay[practice.Day(day)]; m > 0 {
			d.Items = append(d.Items, bar(surface.Scale(0), x+0.3, base-m/most*plotHeight, step-0.6, m/most*plotHeight))
		}
		if i%7 == 0 {
			week := p.Minutes(practice.Day(day), practice.Day(day.AddDate(0, 0, 6)))
			d.Items = append(d.Items,
				label(day.Format("2 Jan"), x+0.3, base+5, surface.Left),
				label(fmt.Sprintf("%d", week), x+0.3, base+9.5, surface.Left))
		}
	}
	d.Items = append(d.Items, label("Minutes a day; under each week its first day and its minutes.", left, base+15, surface.Left))
	d.Height = base + 16
	return d
}

func tempoText(p *practice.Progress) string {
	if len(p.Tempo) == 0 {
		return "Nothing has been played yet."
	}
	return "Each run's tempo by day: a filled dot is clean or relaxed, a ring is not. The dashed line is the target."
}

// tempo draws each item's runs over time, for the items played last.
func tempo(p *practice.Progress) surface.Drawing {
	d := surface.Drawing{Width: width}
	const most, high = 6, 22.0
	y := 0.0
	for _, t := range p.Tempo[:min(most, len(p.Tempo))] {
		low, top := t.Target, t.Target
		for _, r := range t.Runs {
			low, top = min(low, r.Tempo), max(top, r.Tempo)
		}
		low -= 5
		height := func(tempo float64) float64 { return y + 4 + high - (tempo-low)/(top-low)*high }
		d.Items = append(d.Items, surface.Text{Text: fitted(t.Title, nameRoom-8), At: surface.Pt(0, y+high/2+4), Size: textSize, Face: surface.Sans, Paint: surface.Ink})
		target := rule(surface.Ink, 0.25, nameRoom, height(t.Target), width, height(t.Target))
		target.Dash = []float64{1.2, 1}
		d.Items = append(d.Items, target, label(fmt.Sprintf("%.0f", t.Target), nameRoom-1.5, height(t.Target)+1.1, surface.Right))
		first, last := dayNumber(t.Runs[0].Day), dayNumber(t.Runs[len(t.Runs)-1].Day)
		for _, r := range t.Runs {
			x := nameRoom + 2
			if last > first {
				x += (dayNumber(r.Day) - first) / (last - first) * (width - nameRoom - 4)
			}
			dot := surface.Disc{Center: surface.Pt(x, height(r.Tempo)), Radius: 0.9, Stroke: surface.Scale(0), Width: 0.3}
			if r.Went >= practice.Clean {
				dot.Fill = surface.Scale(0)
			}
			d.Items = append(d.Items, dot)
		}
		y += high + 8
		d.Items = append(d.Items,
			label(t.Runs[0].Day, nameRoom, y+1, surface.Left),
			label(t.Runs[len(t.Runs)-1].Day, width, y+1, surface.Right))
		y += 5
	}
	d.Height = y
	return d
}

func dayNumber(day string) float64 {
	at, err := time.Parse(practice.DayLayout, day)
	if err != nil {
		return 0
	}
	return float64(at.Unix() / 86400)
}
