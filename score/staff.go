package score

import (
	"strconv"

	"heddle/score/surface"
)

// drawStaff draws the five lines, the clef, the time signature and the bar
// lines.
func (s *system) drawStaff(p pen) []surface.Item {
	e := surface.Engraving()
	lines := surface.Rules{Width: e.StaffLine * p.space, Paint: surface.Ink}
	for y := range 5 {
		lines.Lines = append(lines.Lines, [2]surface.Point{p.at(0, float64(y)), p.at(s.right, float64(y))})
	}
	items := []surface.Item{lines}
	bottom := staffHeight
	if s.options.has(Tablature) {
		bottom = s.rows.tab + s.tabHeight()
	}
	items = append(items, p.line(e.ThinBar/2, 0, e.ThinBar/2, bottom, e.ThinBar, surface.Ink))
	x := clefMargin
	items = append(items, p.sign(s.clef.sign, x, s.clef.line))
	x += s.clef.sign.Width() + prefixAfter
	if s.first {
		items = append(items, s.drawTime(p, x)...)
		if s.options.Repeat {
			items = append(items, s.drawRepeatStart(p, x+s.timeWidth()+prefixAfter*0.6)...)
		}
	}
	for _, c := range s.columns {
		if c.barLine {
			items = append(items, s.drawBarLine(p, c)...)
		}
	}
	return items
}

// drawTime draws the time signature with its left edge at x.
func (s *system) drawTime(p pen, x float64) []surface.Item {
	var items []surface.Item
	meter := s.exercise.Rhythm.Meter
	for i, n := range [2]int{meter.Beats, meter.Unit} {
		signs := surface.Digits(surface.TimeDigit, n)
		width := 0.0
		for _, d := range signs {
			width += d.Width()
		}
		at := x + (s.timeWidth()-width)/2
		for _, d := range signs {
			items = append(items, p.sign(d, at-d.Box().MinX, float64(1+2*i)))
			at += d.Width()
		}
	}
	return items
}

// spans returns the stretches of y that a bar line crosses: the staff and the
// tablature.
func (s *system) spans() [][2]float64 {
	spans := [][2]float64{{0, staffHeight}}
	if s.options.has(Tablature) {
		spans = append(spans, [2]float64{s.rows.tab, s.rows.tab + s.tabHeight()})
	}
	return spans
}

// drawBarLine draws a bar line whose right edge is the column's x.
func (s *system) drawBarLine(p pen, c column) []surface.Item {
	e := surface.Engraving()
	if !c.last {
		return s.uprights(p, c.x-e.ThinBar/2, e.ThinBar)
	}
	thick := c.x - e.ThickBar/2
	thin := c.x - e.ThickBar - e.BarSeparation - e.ThinBar/2
	items := append(s.uprights(p, thick, e.ThickBar), s.uprights(p, thin, e.ThinBar)...)
	if s.options.Repeat {
		x := thin - e.ThinBar/2 - e.RepeatDots - surface.RepeatDots.Width()
		items = append(items, s.dots(p, x)...)
	}
	return items
}

// drawRepeatStart draws the sign that the repeat returns to.
func (s *system) drawRepeatStart(p pen, x float64) []surface.Item {
	e := surface.Engraving()
	items := s.uprights(p, x+e.ThickBar/2, e.ThickBar)
	x += e.ThickBar + e.BarSeparation
	items = append(items, s.uprights(p, x+e.ThinBar/2, e.ThinBar)...)
	return append(items, s.dots(p, x+e.ThinBar+e.RepeatDots)...)
}

// dots draws a repeat's dots in the staff and the tablature.
func (s *system) dots(p pen, x float64) []surface.Item {
	items := []surface.Item{p.sign(surface.RepeatDots, x, staffHeight)}
	if s.options.has(Tablature) {
		middle := s.rows.tab + s.tabHeight()/2
		apart := tabSpace // between strings, as far apart as they come near the middle
		if s.exercise.Instrument.Strings()%2 == 1 {
			apart = tabSpace / 2
		}
		r := surface.RepeatDots.Width() / 2
		for _, y := range [2]float64{middle - apart, middle + apart} {
			items = append(items, surface.Disc{Center: p.at(x+r, y), Radius: r * p.space, Fill: surface.Ink})
		}
	}
	return items
}

// startsBar reports whether the system begins with a whole bar.
func (s *system) startsBar() bool {
	c := s.columns[0]
	return !c.barLine && c.event.Start == s.measures[c.measure].Start
}

// uprights draws a bar line's stroke with its middle at x.
func (s *system) uprights(p pen, x, width float64) []surface.Item {
	r := surface.Rules{Width: width * p.space, Paint: surface.Ink}
	for _, span := range s.spans() {
		r.Lines = append(r.Lines, [2]surface.Point{p.at(x, span[0]), p.at(x, span[1])})
	}
	return []surface.Item{r}
}

// drawAbove draws the rows above the staff: bar number, brackets, chord
// symbols, tempo.
func (s *system) drawAbove(p pen) []surface.Item {
	var items []surface.Item
	if s.options.has(BarNumbers) && !s.first && s.startsBar() {
		number := strconv.Itoa(s.measures[s.columns[0].measure].Number)
		items = append(items, p.text(number, 0, -1.9, labelSize, surface.Sans, surface.Left, surface.Soft))
	}
	if s.options.has(Brackets) {
		for _, b := range s.brackets {
			items = append(items, surface.Group{Class: "bracket", Items: b.draw(p, s.above.bracket, s.above.label)})
		}
	}
	if s.options.has(ChordSymbols) {
		for i, c := range s.columns {
			if symbol := s.chordOver(c, i == 0); symbol != "" {
				items = append(items, p.text(symbol, c.x-halfHead, s.above.chord, chordSize, surface.SerifBold, surface.Left, surface.Ink))
			}
		}
	}
	if s.first && s.options.has(TempoMark) {
		items = append(items, surface.Group{Class: "tempo", Items: s.drawTempo(p, s.above.tempo)})
	}
	return items
}
