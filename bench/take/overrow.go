package take

import (
	"fmt"
	"math"
	"strconv"

	"heddle/bench/site"
	"heddle/hear"
	"heddle/score/surface"
)

func at(x, y float64) surface.Point { return surface.Pt(x*site.MMPerPixel, y*site.MMPerPixel) }

// classed gives items a class, by which the page's style sheet colours them.
func classed(class string, items ...surface.Item) surface.Group {
	return surface.Group{Class: class, Items: items}
}

// strokes are straight lines from pixels, one for each four numbers.
func strokes(width float64, paint surface.Paint, ends ...float64) surface.Rules {
	r := surface.Rules{Width: width * site.MMPerPixel, Paint: paint}
	for ; len(ends) >= 4; ends = ends[4:] {
		r.Lines = append(r.Lines, [2]surface.Point{at(ends[0], ends[1]), at(ends[2], ends[3])})
	}
	return r
}

// outline is a rectangle of lines, dashed where dashes are given.
func outline(left, top, right, low, width float64, dash ...float64) surface.Rules {
	r := strokes(width, surface.Soft, left, top, right, top, right, top, right, low, right, low, left, low, left, low, left, top)
	for _, length := range dash {
		r.Dash = append(r.Dash, length*site.MMPerPixel)
	}
	return r
}

func text(s string, x, y, size float64, align surface.Align, paint surface.Paint) surface.Text {
	return surface.Text{Text: s, At: at(x, y), Size: size * site.MMPerPixel, Face: surface.Sans, Align: align, Paint: paint}
}

func (o *overPicture) row(row beatSpan) (items []surface.Item, height float64) {
	notes, extras := o.within(row)
	low, high := lanes(notes, extras)
	laneY := func(key float64) float64 { return overNameRow + (high-key)*overLane + overBox/2 }
	bottom := laneY(low) + overBox/2
	x := func(beat float64) float64 { return overMargin + (beat-row.from)*o.beatPX }

	for beat := math.Ceil(row.from - 1e-9); beat <= row.to+1e-9; beat++ {
		class, from, width := "grid", overNameRow, 0.6
		if math.Abs(math.Remainder(beat, o.bar)) < 1e-6 {
			class, from, width = "bar-line", 0, 1
		}
		items = append(items, classed(class, strokes(width, surface.Hair, x(beat), from, x(beat), bottom)))
	}
	for bar := math.Ceil(row.from/o.bar - 1e-9); bar*o.bar < row.to-1e-9; bar++ {
		if bar >= 0 {
			items = append(items, text(strconv.Itoa(int(bar)+1), x(bar*o.bar)+3, 11, 10, surface.Left, surface.Soft))
		}
	}
	for _, e := range extras {
		y := laneY(e.key)
		items = append(items, classed("extra", heardBar("extra", x(e.from), x(max(e.to, e.from+0.1)), y), sign("extra", x(e.from)+5, y-overBar)))
	}
	for _, n := range notes {
		items = append(items, o.written(n, x, laneY, bottom))
	}
	return items, bottom + overSignRow + overNeedleRow
}

func (o *overPicture) written(n overWritten, x, y func(float64) float64, bottom float64) surface.Group {
	left, right, middle := x(n.from), x(n.to)-1.5, y(float64(n.key))
	top, low := middle-overBox/2, middle+overBox/2
	verdict := string(n.mark.Verdict)
	g := surface.Group{Class: "take-note " + verdict, Notes: []int{n.index}, Label: o.says(n)}
	edge := outline(left, top, right, low, 1)
	if n.mark.Verdict == hear.Missed {
		edge = outline(left, top, right, low, 1.4, 3, 2.5)
	}
	ground := surface.Shape{Path: surface.Polygon(at(left, top), at(right, top), at(right, low), at(left, low)), Fill: surface.Paper}
	g.Items = append(g.Items, classed("box", ground, edge))
	signX := left + overLeastNote/2 - 2
	if n.mark.Verdict != hear.Missed {
		end := min(n.heard.to, n.to+0.25)
		g.Items = append(g.Items, heardBar(verdict, x(n.heard.from), x(max(end, n.heard.from+0.08)), y(n.heardKey)), needle(n.mark.TimingMS, signX, bottom+overSignRow))
	}
	nameY := top - 2.5
	if n.sharpBySteps() {
		nameY = low + overNameBelow
	}
	g.Items = append(g.Items, sign(verdict, signX, bottom+overSignRow/2), classed("name", text(n.name, left+1, nameY, 10.5, surface.Left, surface.Ink)))
	return g
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

// heardBar draws a heard note. Its ends show the verdict: round for right, pointed
// for wrong; an extra note is only an outline.
func heardBar(verdict string, left, right, middle float64) surface.Group {
	h := overBar / 2
	right = max(right, left+overBar)
	switch verdict {
	case "wrong":
		return classed("heard", surface.Shape{Fill: surface.Ink, Path: surface.Polygon(at(left, middle), at(left+h, middle-h), at(right-h, middle-h),
			at(right, middle), at(right-h, middle+h), at(left+h, middle+h))})
	case "extra":
		return classed("heard", outline(left, middle-h, right, middle+h, 1.6, 1.5, 2))
	}
	end := func(x float64) surface.Disc {
		return surface.Disc{Center: at(x, middle), Radius: h * site.MMPerPixel, Fill: surface.Ink}
	}
	return classed("heard", strokes(overBar, surface.Ink, left+h, middle, right-h, middle), end(left+h), end(right-h))
}

// sign draws a verdict: a tick, a cross, an empty ring, a plus.
func sign(verdict string, x, y float64) surface.Group {
	const width = 1.8
	switch verdict {
	case "right":
		return classed("sign", strokes(width, surface.Ink, x-4, y, x-1, y+3.5, x-1, y+3.5, x+4, y-4))
	case "wrong":
		return classed("sign", strokes(2.2, surface.Ink, x-3.5, y-3.5, x+3.5, y+3.5, x+3.5, y-3.5, x-3.5, y+3.5))
	case "missed":
		return classed("sign", surface.Disc{Center: at(x, y), Radius: 3.8 * site.MMPerPixel, Stroke: surface.Ink, Width: width * site.MMPerPixel})
	}
	return classed("sign", strokes(width, surface.Ink, x-3.5, y, x+3.5, y, x, y-3.5, x, y+3.5))
}

// needle draws how early or late a note is, magnified, with the number.
func needle(ms, x, y float64) surface.Group {
	reach := max(-overLeastNote/2+1, min(overLeastNote/2-1, ms*overPXPerMS))
	return classed("needle", strokes(1, surface.Hair, x, y, x, y+8), strokes(3, surface.Ink, x, y+4, x+reach, y+4),
		text(hear.Signed(ms), x, y+18, 9.5, surface.Center, surface.Soft))
}
