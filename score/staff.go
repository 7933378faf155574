package score

import (
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/score/notation"
	"heddle/score/surface"
)

// A clef is the sign at the beginning of a staff.
type clef struct {
	sign   surface.Sign
	line   float64 // y of the sign's origin, in staff spaces from the top line
	spoken string  // for the description
}

// clefOf returns the clef of an instrument.
func clefOf(in neck.Instrument) clef {
	switch c := in.Clef(); {
	case c.Bass:
		return clef{surface.BassClefOctave, 1, "bass clef sounding an octave lower"}
	case c.Octave == 0:
		return clef{surface.TrebleClef, 3, "treble clef"}
	}
	return clef{surface.TrebleClefOctave, 3, "treble clef sounding an octave lower"}
}

// place returns a note's staff place, steps above the middle line; one under an
// octave line is written an octave lower than it sounds.
func (l *layout) place(note int) int {
	place := notation.Place(l.exercise.Instrument.Clef(), l.exercise.Notes[note].Pitch)
	if l.octaves[note] {
		place -= 7
	}
	return place
}

// The staff in staff spaces from its top line.
const (
	staffHeight = 4.0
	middleLine  = 2.0
)

// placeY returns where a staff place lies.
func placeY(place int) float64 { return middleLine - float64(place)/2 }

// ledgers returns where the ledger lines of a note lie, from the staff
// outward.
func (l *layout) ledgers(note int) []float64 {
	place := l.place(note)
	var lines []float64
	for p := 6; p <= place; p += 2 {
		lines = append(lines, placeY(p))
	}
	for p := -6; p >= place; p -= 2 {
		lines = append(lines, placeY(p))
	}
	return lines
}

// headSign returns the notehead of a value.
func headSign(v line.NoteValue) surface.Sign {
	switch {
	case v.Halvings <= 0:
		return surface.NoteheadWhole
	case v.Halvings == 1:
		return surface.NoteheadHalf
	}
	return surface.NoteheadBlack
}

// restSign returns the sign of a rest.
func (l *layout) restSign(e line.Written) surface.Sign {
	if e.WholeBar {
		return surface.RestWhole
	}
	return surface.RestWhole + surface.Sign(e.Value.Halvings)
}

// finalBarWidth returns the width of the last bar line, with its repeat dots.
func (l *layout) finalBarWidth() float64 {
	e := surface.Engraving()
	w := e.ThinBar + e.BarSeparation + e.ThickBar
	if l.options.Repeat {
		w += e.RepeatDots + surface.RepeatDots.Width()
	}
	return w
}

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
