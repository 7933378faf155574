package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/touch"
)

func groupsText(ex *exercise.Exercise) string {
	var b strings.Builder
	b.WriteString("Notes: ")
	for i, n := range ex.Notes {
		if i > 0 {
			b.WriteString(separator(ex.Notes[i-1], n))
		}
		b.WriteString(ex.Naming.Pitch(n.Pitch))
	}
	return wrapGroups(b.String())
}

// separator separates two notes: a stroke between groups, an arrow before the
// landing.
func separator(before, n exercise.Note) string {
	switch {
	case before.Role != n.Role:
		return " → "
	case before.Group != n.Group:
		return " | "
	}
	return " "
}

// wrapGroups wraps at group strokes rather than inside a group.
func wrapGroups(text string) string {
	var b strings.Builder
	column := 0
	for i, group := range strings.SplitAfter(text, " | ") {
		size := utf8.RuneCountInString(strings.TrimRight(group, " "))
		if i > 0 && column+size > textWidth {
			b.WriteString("\n       ")
			column = 7
		}
		b.WriteString(group)
		column += utf8.RuneCountInString(group)
	}
	return strings.ReplaceAll(b.String(), " \n", "\n") + "\n"
}

// tabText draws the line as plain-text tablature, a few bars to a row, with
// names, fingers, strokes and degrees under each note.
func tabText(ex *exercise.Exercise) string {
	var b strings.Builder
	columns := tabColumns(ex)
	for len(columns) > 0 {
		count := tabRow(columns)
		b.WriteString(tabRows(ex, columns[:count]))
		columns = columns[count:]
	}
	b.WriteString(strokeLegend)
	if touched(ex) {
		b.WriteString(touchLegend)
	}
	return b.String()
}

const strokeLegend = "finger 0 open, 1 index to 4 little finger; stroke ↓ down, ↑ up, h hammer-on,\np pull-off, s slide; under the degree · chord tone, + tension, ~ blue,\n! avoid, x outside\n"

const touchLegend = "touch b1 b½ b¼ bent by a tone, a semitone, a quarter tone, r released; / slide into,\n-/ slide from the note before, ~ vibrato, () ghost note, > accent, . staccato\n"

func touched(ex *exercise.Exercise) bool {
	return slices.ContainsFunc(ex.Notes, func(n exercise.Note) bool { return n.Touch != touch.Touch{} })
}

// touchText writes a touch in the signs of text tablature.
func touchText(t touch.Touch) string {
	text := map[touch.Bend]string{touch.Quarter: "b¼", touch.Half: "b½", touch.Whole: "b1"}[t.Bend] +
		map[touch.Slide]string{touch.Into: "/", touch.Between: "-/"}[t.Slide]
	for _, sign := range []struct {
		is   bool
		text string
	}{{t.Release, "r"}, {t.Vibrato, "~"}, {t.Ghost, "()"}, {t.Accent, ">"}, {t.Staccato, "."}} {
		if sign.is {
			text += sign.text
		}
	}
	return text
}

// A tabColumn is one note, rest or bar line of plain-text tablature.
type tabColumn struct {
	width int
	bar   int            // the bar that a bar line opens, from 1; 0 elsewhere
	line  bool           // a bar line
	note  *exercise.Note // nil for a bar line or a rest
}

// tabColumns lays the notes and bar lines out in time.
func tabColumns(ex *exercise.Exercise) []tabColumn {
	var columns []tabColumn
	bar := ex.Rhythm.Meter.Bar()
	next, at := line.Beat(0), -ex.Rhythm.Pickup
	for i := range ex.Notes {
		n := &ex.Notes[i]
		if n.Start > at {
			columns = append(columns, tabColumn{width: 2})
		}
		for n.Start >= next {
			columns = append(columns, tabColumn{width: 1, line: true, bar: int(next/bar) + 1})
			next += bar
			if n.Start >= next {
				columns = append(columns, tabColumn{width: emptyBar})
			}
		}
		columns = append(columns, tabColumn{width: noteWidth(ex, *n), note: n})
		at = n.Start + n.Duration
	}
	return append(columns, tabColumn{width: 1, line: true})
}

// emptyBar is the width of a bar without a note: room for its number.
const emptyBar = 3

func noteWidth(ex *exercise.Exercise, n exercise.Note) int {
	return max(2, utf8.RuneCountInString(ex.Naming.Name(n.Pitch.Name)), len(n.Degree.String()), utf8.RuneCountInString(touchText(n.Touch))) + 1
}

// tabLabel is the width of the labels left of a row.
const tabLabel = 8

// tabRow returns how many columns go in the next row: as many whole bars as
// fit, or what fits of a bar too long for a row, up to a beat where that fills
// half the row.
func tabRow(columns []tabColumn) int {
	width, bars := tabLabel, 0
	for i, c := range columns {
		width += c.width
		if width > textWidth && i > 0 {
			if bars > 0 {
				return bars
			}
			return beatBefore(columns, i)
		}
		if c.line && i > 0 {
			bars = i
		}
	}
	return len(columns)
}

// beatBefore returns the last of the columns up to end, but past half of them,
// whose note is on a quarter note; end where there is none.
func beatBefore(columns []tabColumn, end int) int {
	for i := end; i > end/2; i-- {
		if n := columns[i].note; n != nil && n.Start%line.Quarter == 0 {
			return i
		}
	}
	return end
}

func tabRows(ex *exercise.Exercise, columns []tabColumn) string {
	var b strings.Builder
	b.WriteString(barCells(ex, columns))
	b.WriteString(label("scale") + scaleCells(ex, columns))
	for s := 1; s <= ex.Instrument.Strings(); s++ {
		open := ex.Instrument.Open[s-1]
		b.WriteString(label(ex.Naming.Name(open.Name)) + cells(columns, '-', func(c tabColumn) string { return stringCell(c, s) }))
	}
	for _, row := range tabUnder(ex) {
		b.WriteString(label(row.label) + cells(columns, ' ', func(c tabColumn) string {
			if c.note == nil {
				return ""
			}
			return row.cell(*c.note)
		}))
	}
	return b.String() + "\n"
}

// barCells numbers the bars. A row that begins inside a bar says which, in
// brackets, or that it is the pickup.
func barCells(ex *exercise.Exercise, columns []tabColumn) string {
	head, inside := "bar", ""
	if n := columns[0].note; n != nil {
		if n.Start < 0 {
			head = "pickup"
		} else {
			inside = fmt.Sprintf("(%d)", int(n.Start/ex.Rhythm.Meter.Bar())+1)
		}
	}
	first := true
	row := label(head) + cells(columns, ' ', func(c tabColumn) string {
		text := inside
		if c.bar > 0 {
			text = strconv.Itoa(c.bar)
		} else if !first {
			text = ""
		}
		first = false
		return text
	})
	return strings.TrimRight(row, " \n") + "\n"
}

func label(s string) string { return fmt.Sprintf("%*s ", tabLabel-1, s) }

func stringCell(c tabColumn, s int) string {
	switch {
	case c.line:
		return "|"
	case c.note != nil && c.note.String == s:
		return strconv.Itoa(c.note.Fret)
	}
	return ""
}

// An underRow is a row under the strings.
type underRow struct {
	label string
	cell  func(exercise.Note) string
}

func tabUnder(ex *exercise.Exercise) []underRow {
	rows := []underRow{
		{"name", func(n exercise.Note) string { return ex.Naming.Name(n.Pitch.Name) }},
		{"finger", func(n exercise.Note) string { return strconv.Itoa(n.Finger) }},
		{"stroke", func(n exercise.Note) string { return strokeMarks[n.Stroke] }},
		{"degree", func(n exercise.Note) string { return n.Degree.Symbol() }},
		{"", func(n exercise.Note) string { return n.Function.Sign() }},
	}
	if touched(ex) {
		rows = slices.Insert(rows, 0, underRow{"touch", func(n exercise.Note) string { return touchText(n.Touch) }})
	}
	return rows
}

var strokeMarks = map[finger.Stroke]string{
	finger.Down: "↓", finger.Up: "↑", finger.HammerOn: "h", finger.PullOff: "p", finger.Slide: "s",
}

// cells writes one text for each column, filled up to the column's width.
func cells(columns []tabColumn, fill rune, text func(tabColumn) string) string {
	var b strings.Builder
	over := 0 // how far a text ran into the columns after it
	for _, c := range columns {
		t := text(c)
		if over > 0 && t == "" {
			use := min(over, c.width)
			over -= use
			b.WriteString(strings.Repeat(string(fill), c.width-use))
			continue
		}
		b.WriteString(t)
		used := utf8.RuneCountInString(t)
		over = max(0, used-c.width)
		b.WriteString(strings.Repeat(string(fill), max(0, c.width-used)))
	}
	return strings.TrimRight(b.String(), " ") + "\n"
}

// scaleCells brackets each group with its scale's root.
func scaleCells(ex *exercise.Exercise, columns []tabColumn) string {
	notes := slices.DeleteFunc(slices.Clone(columns), func(c tabColumn) bool { return c.note == nil })
	joined := func(i int) bool { // the note before i and note i are of one group
		return i > 0 && i < len(notes) && notes[i-1].note.Group == notes[i].note.Group && notes[i-1].note.Role == notes[i].note.Role
	}
	var b strings.Builder
	at, inside := 0, false
	for _, c := range columns {
		if c.note == nil {
			b.WriteString(strings.Repeat(bracket(inside), c.width))
			continue
		}
		head := ""
		if !joined(at) {
			head = groupLabel(ex, *c.note)
		}
		at++
		inside = joined(at)
		room := c.width - utf8.RuneCountInString(head)
		b.WriteString(head)
		if inside {
			b.WriteString(strings.Repeat("─", max(0, room)))
		} else {
			b.WriteString(strings.Repeat("─", max(0, room-2)) + "┘ ")
		}
	}
	return strings.TrimRight(b.String(), " ") + "\n"
}

func bracket(inside bool) string {
	if inside {
		return "─"
	}
	return " "
}

// groupLabel heads a group: its scale's root, or an arrow for the landing.
func groupLabel(ex *exercise.Exercise, n exercise.Note) string {
	if n.Role == line.LandingRole || n.Scale == line.Chromatic {
		return "→"
	}
	return ex.Naming.Name(ex.Scales[n.Scale].Root)
}
