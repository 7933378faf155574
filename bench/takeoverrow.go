package bench

import (
	"fmt"
	"html/template"
	"math"
	"strconv"

	"heddle/hear"
)

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
	nameY := center - overBox/2 - 2.5
	if n.sharpBySteps() {
		nameY = center + overBox/2 + overNameBelow
	}
	fmt.Fprintf(o, `<text class="name" x="%s" y="%s">%s</text>`, px(left+1), px(nameY), template.HTMLEscapeString(n.name))
	o.WriteString("</g>")
}

func (o *overPicture) says(n overWritten) string {
	switch n.mark.Verdict {
	case hear.Missed:
		return fmt.Sprintf("%d, %s: missed", n.index+1, n.name)
	case hear.Wrong:
		return fmt.Sprintf("%d, %s: wrong, %s, %s", n.index+1, n.name, semitoneWords(n.mark.Cents), hear.TimingText(n.mark.TimingMS))
	}
	return fmt.Sprintf("%d, %s: right, %s, %s cents", n.index+1, n.name, hear.TimingText(n.mark.TimingMS), hear.Signed(n.mark.Cents))
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
	fmt.Fprintf(o, `<text class="ms" x="%s" y="%s">%s</text>`, px(x), px(y+18), hear.Signed(ms))
}

func px(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }
