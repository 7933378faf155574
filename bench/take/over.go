package take

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/hear"
	"heddle/score/surface"
)

// The picture of a take: time runs to the right in the exercise's beats, pitch
// upward. An outline shows where and how long each written note should sound; a
// filled bar over it shows what was heard, shifted by its timing and raised by its
// cents. Below are the verdict as a sign and the timing, magnified so that 10 ms
// can be seen. Colour is never the only sign: a right bar has round ends, a wrong
// one pointed ends, an extra one is hollow, a missed note's outline is dashed.

// Measures of the picture in pixels.
const (
	overMargin    = 8.0
	overLane      = 7.0  // a semitone
	overBox       = 12.0 // height of a written note
	overBar       = 7.0  // height of a heard one
	overLeastNote = 27.0 // width of the shortest note, so that its timing can be written
	overLeastBeat = 34.0 // width of a quarter note
	overMostBeat  = 100.0
	overNameRow   = 23.0
	overSignRow   = 18.0
	overNeedleRow = 22.0
	overRowGap    = 14.0
	overPXPerMS   = 0.3 // of the timing, magnified
	overLeastSpan = 9   // semitones
	overNamed     = 3.5 // semitones above a note that its name takes up
	overNameBelow = 9.5
)

// A beatSpan is a stretch of time in quarter notes from the first bar line.
type beatSpan struct{ from, to float64 }

// overWritten is one written note and what was heard for it.
type overWritten struct {
	beatSpan
	index, key   int
	name         string
	mark         hear.NoteMark
	heard        beatSpan // where the note heard for it lies
	heardKey     float64
	firstOfGroup bool
}

// sharpBySteps reports whether what was heard covers the usual place of the note's
// name, just above its outline.
func (n overWritten) sharpBySteps() bool {
	above := n.heardKey - float64(n.key)
	return n.mark.Verdict == hear.Wrong && above > 0 && above < overNamed
}

// overExtra is a heard note that matches no written one.
type overExtra struct {
	beatSpan
	key float64
}

// An overPicture is the picture while it is laid out, in pixels.
type overPicture struct {
	notes    []overWritten
	extras   []overExtra
	bar      float64 // quarter notes
	perRow   float64 // quarter notes
	beatPX   float64
	width    float64
	quarterS float64 // as played
}

// drawOver draws what was heard over what was written, room pixels wide, and
// counts the extra notes that lie before or after the line and so outside the
// picture.
func drawOver(ex *exercise.Exercise, r *hear.Report, room int) (picture surface.Drawing, outside int) {
	o := &overPicture{width: float64(room), bar: ex.Rhythm.Meter.Bar().Quarters(), quarterS: 60 / r.Tempo}
	o.gather(ex, r)
	if len(o.notes) == 0 {
		return surface.Drawing{}, len(o.extras)
	}
	o.scale()
	rows := o.rows()
	for _, e := range o.extras {
		if e.from < rows[0].from || e.from >= rows[len(rows)-1].to {
			outside++
		}
	}
	s, height := r.Summary, 0.0
	picture = surface.Drawing{
		Title:  fmt.Sprintf("What was heard over what was written: %d right, %d wrong, %d missed, %d extra. The table below says the same note by note.", s.Right, s.Wrong, s.Missed, s.Extra),
		Prefix: "over-", Width: o.width * site.MMPerPixel,
	}
	for _, row := range rows {
		items, h := o.row(row)
		picture.Items = append(picture.Items, surface.Group{Class: "row", Items: surface.Shift(items, 0, height*site.MMPerPixel)})
		height += h + overRowGap
	}
	picture.Height = height * site.MMPerPixel
	return picture, outside
}

func (o *overPicture) gather(ex *exercise.Exercise, r *hear.Report) {
	sounding := func(n exercise.Note) beatSpan {
		return beatSpan{ex.Rhythm.Sounding(n.Start).Quarters(), ex.Rhythm.Sounding(n.End()).Quarters()}
	}
	group := -1
	var anchors []overAnchor
	for _, m := range r.Marks {
		n := ex.Notes[m.Index]
		w := overWritten{beatSpan: sounding(n), index: m.Index, key: n.Pitch.MIDI(), name: ex.Naming.Name(n.Pitch.Name), mark: m, firstOfGroup: n.Group != group}
		group = n.Group
		if m.Verdict != hear.Missed {
			h := r.Heard[m.Heard]
			late := m.TimingMS / 1000 / o.quarterS
			w.heard = beatSpan{w.from + late, w.from + late + (h.OffsetS-h.OnsetS)/o.quarterS}
			w.heardKey = float64(w.key) + m.Cents/100
			anchors = append(anchors, overAnchor{h.OnsetS, w.heard.from})
		}
		o.notes = append(o.notes, w)
	}
	slices.SortFunc(anchors, func(a, b overAnchor) int { return cmp.Compare(a.onsetS, b.onsetS) })
	for _, i := range r.Extra {
		h := r.Heard[i]
		from := o.beatAt(anchors, h.OnsetS, r.OffsetS, o.notes[0].from)
		o.extras = append(o.extras, overExtra{beatSpan{from, from + (h.OffsetS-h.OnsetS)/o.quarterS}, h.MIDI - r.TuningCents/100})
	}
}

// An overAnchor is a moment of the recording whose beat is known.
type overAnchor struct{ onsetS, beat float64 }

// beatAt is the beat of a moment, from the last anchor before it.
func (o *overPicture) beatAt(anchors []overAnchor, atS, offsetS, first float64) float64 {
	nearest := overAnchor{offsetS, first}
	for i, a := range anchors {
		if i == 0 || a.onsetS <= atS {
			nearest = a
		}
	}
	return nearest.beat + (atS-nearest.onsetS)/o.quarterS
}

// scale finds how wide a beat must be and how many fit a row: whole bars where
// one fits.
func (o *overPicture) scale() {
	shortest := math.Inf(1)
	for i, n := range o.notes {
		shortest = min(shortest, n.to-n.from)
		if i > 0 && n.from > o.notes[i-1].from {
			shortest = min(shortest, n.from-o.notes[i-1].from)
		}
	}
	least := max(overLeastBeat, overLeastNote/max(shortest, 1.0/16))
	room := o.width - 2*overMargin
	o.perRow = max(1, math.Floor(room/least))
	if o.perRow >= o.bar {
		o.perRow = math.Floor(o.perRow/o.bar) * o.bar
	}
	// Rows of equal length, none of them wider than a beat can use.
	total := math.Ceil((o.notes[len(o.notes)-1].to-math.Floor(o.notes[0].from/o.bar)*o.bar)/o.bar) * o.bar
	if rows := math.Ceil(total / o.perRow); o.perRow >= o.bar {
		o.perRow = math.Ceil(total/rows/o.bar) * o.bar
	}
	o.beatPX = min(room/o.perRow, max(overMostBeat, 2*least))
	o.width = min(o.width, o.perRow*o.beatPX+2*overMargin)
}

// rows cuts the take into rows of equal length, from the bar line at or before
// the first note.
func (o *overPicture) rows() []beatSpan {
	first, last := o.notes[0].from, 0.0
	for _, n := range o.notes {
		last = max(last, n.to)
	}
	start := math.Floor(first/o.bar) * o.bar
	if o.perRow < o.bar {
		start = math.Floor(first/o.perRow) * o.perRow
	}
	var rows []beatSpan
	for at := start; at < last-1e-9; at += o.perRow {
		rows = append(rows, beatSpan{at, at + o.perRow})
	}
	return rows
}

func (o *overPicture) within(row beatSpan) (notes []overWritten, extras []overExtra) {
	for _, n := range o.notes {
		if n.from >= row.from-1e-9 && n.from < row.to-1e-9 {
			notes = append(notes, n)
		}
	}
	for _, e := range o.extras {
		if e.from >= row.from && e.from < row.to {
			extras = append(extras, e)
		}
	}
	return notes, extras
}

// lanes is the span of keys that a row needs.
func lanes(notes []overWritten, extras []overExtra) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, n := range notes {
		low, high = min(low, float64(n.key)), max(high, float64(n.key))
		if n.mark.Verdict != hear.Missed {
			low, high = min(low, math.Floor(n.heardKey)), max(high, math.Ceil(n.heardKey))
		}
		if n.sharpBySteps() {
			low = min(low, float64(n.key)-2) // room for the name below
		}
	}
	for _, e := range extras {
		low, high = min(low, math.Floor(e.key)), max(high, math.Ceil(e.key))
	}
	if low > high {
		return 0, overLeastSpan
	}
	if more := overLeastSpan - (high - low); more > 0 {
		low, high = low-math.Floor(more/2), high+math.Ceil(more/2)
	}
	return low, high + 1
}
