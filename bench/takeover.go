package bench

import (
	"fmt"
	"html/template"
	"math"
	"sort"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/hear"
)

// The picture of a take: time runs to the right in the exercise's beats, pitch
// upward. Each written note is an outline where and as long as it should
// sound; what was heard is a filled bar over it, shifted by its timing and
// raised by its cents. Below stand the verdict as a sign and the timing,
// enlarged, so that 10 ms can be seen. Colour never says anything alone: a
// right bar has round ends, a wrong one pointed ends, an extra one is hollow,
// a missed note's outline is dashed.

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
	overPXPerMS   = 0.3 // of the timing, enlarged
	overLeastSpan = 9   // semitones
)

// A beatSpan is a stretch of time in quarter notes from the first bar line.
type beatSpan struct{ from, to float64 }

// overWritten is one written note with what became of it.
type overWritten struct {
	beatSpan
	index, key   int
	name         string
	mark         hear.NoteMark
	heard        beatSpan // where the note heard for it lies
	heardKey     float64
	firstOfGroup bool
}

// overExtra is a note that stands for none.
type overExtra struct {
	beatSpan
	key float64
}

// An overPicture is the picture while it is laid out.
type overPicture struct {
	strings.Builder
	notes    []overWritten
	extras   []overExtra
	bar      float64 // quarter notes
	perRow   float64 // quarter notes
	beatPX   float64
	width    float64
	quarterS float64 // as played
}

// drawOver draws what was heard over what was written, room pixels wide.
func drawOver(ex *exercise.Exercise, r *hear.Report, room int) template.HTML {
	o := &overPicture{width: float64(room), bar: ex.Rhythm.Meter.Bar().Quarters(), quarterS: 60 / r.Tempo}
	o.gather(ex, r)
	if len(o.notes) == 0 {
		return ""
	}
	o.scale()
	rows := o.rows()
	height := 0.0
	var body strings.Builder
	for _, row := range rows {
		o.Reset()
		h := o.row(row)
		fmt.Fprintf(&body, `<g transform="translate(0 %s)">%s</g>`, px(height), o.String())
		height += h + overRowGap
	}
	s := r.Summary
	label := fmt.Sprintf("What was heard over what was written: %d right, %d wrong, %d missed, %d extra. The table below says the same note by note.", s.Right, s.Wrong, s.Missed, s.Extra)
	return template.HTML(fmt.Sprintf(`<svg class="over" role="img" aria-label="%s" width="%s" height="%s" viewBox="0 0 %[2]s %[3]s">%[4]s</svg>`, label, px(o.width), px(height), body.String()))
}

// gather places what is written and what was heard in beats.
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
	sort.Slice(anchors, func(i, j int) bool { return anchors[i].onsetS < anchors[j].onsetS })
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

// row draws one row and returns its height.
func (o *overPicture) row(row beatSpan) float64 {
	notes, extras := o.within(row)
	low, high := lanes(notes, extras)
	top := overNameRow
	laneTop := func(key float64) float64 { return top + (high-key)*overLane + overBox/2 }
	bottom := laneTop(low) + overBox/2
	x := func(beat float64) float64 { return overMargin + (beat-row.from)*o.beatPX }
	height := bottom + overSignRow + overNeedleRow

	for beat := math.Ceil(row.from - 1e-9); beat <= row.to+1e-9; beat++ {
		class, from := "grid", overNameRow
		if math.Abs(math.Remainder(beat, o.bar)) < 1e-6 {
			class, from = "bar-line", 0
		}
		fmt.Fprintf(o, `<path class="%s" d="M%s %sV%s"/>`, class, px(x(beat)), px(from), px(bottom))
	}
	for bar := math.Ceil(row.from/o.bar - 1e-9); bar*o.bar < row.to-1e-9; bar++ {
		if bar >= 0 {
			fmt.Fprintf(o, `<text class="bar-number" x="%s" y="11">%d</text>`, px(x(bar*o.bar)+3), int(bar)+1)
		}
	}
	for _, e := range extras {
		o.heardBar("extra", x(e.from), x(max(e.to, e.from+0.1)), laneTop(e.key))
		o.sign("extra", x(e.from)+5, laneTop(e.key)-overBar)
	}
	for _, n := range notes {
		o.written(n, x, laneTop, bottom)
	}
	return height
}

// written draws a written note, what was heard for it, and its verdict.
func (o *overPicture) written(n overWritten, x, y func(float64) float64, bottom float64) {
	left, right := x(n.from), x(n.to)-1.5
	center := y(float64(n.key))
	fmt.Fprintf(o, `<g class="take-note %s" data-note="%d"><title>%s</title>`, n.mark.Verdict, n.index, template.HTMLEscapeString(o.says(n)))
	fmt.Fprintf(o, `<rect class="box" x="%s" y="%s" width="%s" height="%s"/>`, px(left), px(center-overBox/2), px(right-left), px(overBox))
	signX := left + overLeastNote/2 - 2
	if n.mark.Verdict != hear.Missed {
		end := min(n.heard.to, n.to+0.25)
		o.heardBar(string(n.mark.Verdict), x(n.heard.from), x(max(end, n.heard.from+0.08)), y(n.heardKey))
		o.needle(n.mark.TimingMS, signX, bottom+overSignRow)
	}
	o.sign(string(n.mark.Verdict), signX, bottom+overSignRow/2)
	fmt.Fprintf(o, `<text class="name" x="%s" y="%s">%s</text>`, px(left+1), px(center-overBox/2-2.5), template.HTMLEscapeString(n.name))
	o.WriteString("</g>")
}

func (o *overPicture) says(n overWritten) string {
	switch n.mark.Verdict {
	case hear.Missed:
		return fmt.Sprintf("%d, %s: missed", n.index+1, n.name)
	case hear.Wrong:
		return fmt.Sprintf("%d, %s: wrong, %s, %s", n.index+1, n.name, semitoneWords(n.mark.Cents), timingWords(n.mark.TimingMS))
	}
	return fmt.Sprintf("%d, %s: right, %s, %s cents", n.index+1, n.name, timingWords(n.mark.TimingMS), signed(n.mark.Cents))
}

// heardBar draws a heard note; its ends say its verdict.
func (o *overPicture) heardBar(kind string, left, right, center float64) {
	h := overBar / 2
	right = max(right, left+overBar)
	switch kind {
	case "wrong": // pointed
		fmt.Fprintf(o, `<path class="heard wrong" d="M%s %sL%s %sH%sL%s %sL%s %sH%sZ"/>`, px(left), px(center), px(left+h), px(center-h),
			px(right-h), px(right), px(center), px(right-h), px(center+h), px(left+h))
	default: // round
		fmt.Fprintf(o, `<rect class="heard %s" x="%s" y="%s" width="%s" height="%s" rx="%s"/>`, kind, px(left), px(center-h), px(right-left), px(2*h), px(h))
	}
}

// The signs of the verdicts as strokes about a middle point: a tick, a cross,
// an empty ring, a plus.
var signStrokes = map[string]string{
	"right":  "m-4 0 3 3.5 5-7.5",
	"wrong":  "m-3.5-3.5 7 7m0-7-7 7",
	"missed": "m-3.8 0a3.8 3.8 0 1 0 7.6 0a3.8 3.8 0 1 0-7.6 0",
	"extra":  "m-3.5 0h7m-3.5-3.5v7",
}

func (o *overPicture) sign(kind string, x, y float64) {
	fmt.Fprintf(o, `<path class="sign %s" d="M%s %s%s"/>`, kind, px(x), px(y), signStrokes[kind])
}

// needle draws how early or late a note is, enlarged, with its number.
func (o *overPicture) needle(ms, x, y float64) {
	reach := max(-overLeastNote/2+1, min(overLeastNote/2-1, ms*overPXPerMS))
	fmt.Fprintf(o, `<path class="beat" d="M%s %sv8"/><path class="needle" d="M%s %sh%s"/>`, px(x), px(y), px(x), px(y+4), px(reach))
	fmt.Fprintf(o, `<text class="ms" x="%s" y="%s">%s</text>`, px(x), px(y+18), signed(ms))
}

// within returns what lies in a row.
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

func px(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }
