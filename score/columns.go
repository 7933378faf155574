package score

import (
	"math"

	"heddle/line"
	"heddle/score/surface"
)

// A row is one of the rows that a column runs through.
type row int

// The rows, from the top of a system.
const (
	staffRow row = iota
	strokeRow
	tabRow
	fingerRow
	nameRow
	degreeRow
	rowCount
)

// rowGaps are the least distances in staff spaces between neighbours in a row.
var rowGaps = [rowCount]float64{
	staffRow: 0.4, strokeRow: 0.4, tabRow: 0.55, fingerRow: 0.5, nameRow: 0.55, degreeRow: 0.55,
}

// An extent is how far something reaches to the left and right of its column,
// in staff spaces.
type extent struct{ left, right float64 }

// A column is what is read straight down at one place of a system: a note with
// everything that belongs to it, a rest, or a bar line.
type column struct {
	event      line.Written
	accidental accidentalMark
	measure    int
	barLine    bool // the line at the end of the measure
	last       bool // the final bar line
	extents    [rowCount]extent
	ideal      float64 // space to the next column before justification
	least      float64 // least space to the next column, so that nothing collides
	breakCost  float64 // of ending a system after the column, see barBreakCost and midBarCost; <0 for never
	chordRoom  float64 // extra least width of a system that begins with the column, see repeatedChordRoom
	x          float64 // in the system, from its left edge
}

// Spacing in staff spaces. An eighth takes eighthSpace; a note twice as long
// takes spaceRatio times as much (common practice has about 1.4 to 1.6; more
// would pull lines of mixed values apart).
const (
	eighthSpace = 3.1
	spaceRatio  = 1.42
	afterBar    = 1.1  // from a bar line to the next note's left edge
	beforeBar   = 0.9  // from a note's right edge to the bar line
	halfHead    = 0.59 // half the width of a black notehead
)

// midBarCost is what breaking a system inside a bar costs, on the scale of
// breaking.go; a bar that fits a system is never broken.
const midBarCost = 40

// barBreakCost is what breaking a system after a bar costs, on the same scale.
// Players read music in phrases of four bars and two (common practice): a break
// elsewhere costs about as much as spaces a third too wide.
func barBreakCost(bar int) float64 {
	switch {
	case bar%4 == 0:
		return 0
	case bar%2 == 0:
		return 5
	}
	return 10
}

// idealSpace returns the space that a duration takes.
func idealSpace(d line.Beat) float64 {
	return eighthSpace * math.Pow(spaceRatio, math.Log2(d.Quarters()*2))
}

// columnsOf makes the columns of the whole line.
func (l *layout) columnsOf() []column {
	var columns []column
	for i, m := range l.measures {
		for j, e := range m.Events {
			c := column{event: e, accidental: l.accidental(m.Marks[j]), measure: i, breakCost: -1}
			c.ideal = idealSpace(e.End - e.Start)
			c.extents = l.extents(c)
			if e.Note != line.Silence && e.Value.Flags() > 0 && len(e.Beams) == 0 {
				c.extents[staffRow].right = max(c.extents[staffRow].right, l.flagReach(e))
			}
			if j+1 < len(m.Events) && m.Events[j+1].Beat != e.Beat && !tears(e, m.Events[j+1]) {
				c.breakCost = midBarCost
			}
			columns = append(columns, c)
		}
		end := column{measure: i, barLine: true, last: i == len(l.measures)-1, breakCost: barBreakCost(m.Number)}
		end.extents[staffRow] = extent{left: surface.Engraving().ThinBar}
		if end.last {
			end.extents[staffRow].left = l.finalBarWidth()
		}
		columns = append(columns, end)
	}
	for i := range columns[:len(columns)-1] {
		columns[i].least = leastSpace(&columns[i], &columns[i+1])
		if columns[i+1].barLine {
			columns[i].ideal *= 0.8
		}
	}
	l.spreadChords(columns)
	for i := range columns {
		if i == 0 || columns[i-1].barLine || columns[i-1].breakCost >= 0 {
			columns[i].chordRoom = l.repeatedChordRoom(columns, i)
		}
	}
	return columns
}

// flagReach returns how far to the right of a note's middle its flag reaches.
func (l *layout) flagReach(e line.Written) float64 {
	h := head{event: e, place: l.place(e.Note)}
	h.up = h.place < 0
	h.attach()
	return h.stem - surface.Engraving().Stem/2 + h.flagSign().Width()
}

// tears reports whether a break after the event would tear a tuplet or a beam.
func tears(e, next line.Written) bool {
	beamed := len(next.Beams) > 0 && (next.Beams[0] == line.BeamContinues || next.Beams[0] == line.BeamEnds)
	return beamed || e.Tuplet != nil && e.Tuplet == next.Tuplet
}

// leastSpace returns the least distance between neighbours.
func leastSpace(a, b *column) float64 {
	least := 0.0
	for r := range rowCount {
		left, right := a.extents[r], b.extents[r]
		if left.right == 0 && r != staffRow || right.left == 0 && r != staffRow && !b.barLine {
			continue
		}
		gap := rowGaps[r]
		switch {
		case a.barLine && r == staffRow:
			gap = afterBar
		case b.barLine && r == staffRow:
			gap = beforeBar
		case a.barLine || b.barLine:
			gap = 0.7
		}
		least = max(least, left.right+gap+right.left)
	}
	return least
}

// extents measures what is in each row of a column.
func (l *layout) extents(c column) (out [rowCount]extent) {
	if c.event.Note == line.Silence {
		w := l.restSign(c.event).Width() / 2
		out[staffRow] = extent{w, w}
		if c.event.Value.Dots > 0 && !c.event.WholeBar {
			out[staffRow].right += dotGap + surface.AugmentationDot.Width()
		}
		return out
	}
	head := headSign(c.event.Value)
	w := head.Width() / 2
	out[staffRow] = extent{w, w}
	if c.accidental.printed {
		out[staffRow].left += accidentalGap + c.accidental.width()
	}
	if c.event.Value.Dots > 0 {
		out[staffRow].right += dotGap + surface.AugmentationDot.Width()
	}
	if len(l.ledgers(c.event.Note)) > 0 {
		reach := w + surface.Engraving().LedgerExtension
		out[staffRow].left = max(out[staffRow].left, reach)
		out[staffRow].right = max(out[staffRow].right, reach)
	}
	for r := strokeRow; r < rowCount; r++ {
		if text, face, size := l.cell(c, r); text != "" {
			half := face.Width(text, size) / 2
			out[r] = extent{half, half}
		}
	}
	if sign, picked := pickSigns[l.exercise.Notes[c.event.Note].Stroke]; picked && l.options.has(Strokes) {
		half := sign.Width() * strokeScale / 2
		out[strokeRow] = extent{half, half}
	}
	l.widen(&out, c.event)
	return out
}
