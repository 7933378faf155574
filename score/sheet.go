package score

import (
	"cmp"
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/score/surface"
)

// sheetWidth is the width in mm of a sheet that no width is asked for.
const sheetWidth = 240

// smallestSpace is how far, as a part of the wanted size, a sheet's staff is
// reduced before its systems may overflow a narrow screen.
const smallestSpace = 0.55

// systemGap is the white between systems in staff spaces.
const systemGap = 3.0

// Sheet returns the whole line as one drawing for a screen, at most as wide as
// the options ask: its systems one below the other, without title or page
// breaks. On a screen too narrow for the longest beat the staff gets smaller.
func Sheet(ex *exercise.Exercise, opt Options) surface.Drawing {
	l, width, systems := sheetSystems(ex, opt)
	d := l.drawing(width)
	y := 0.0
	for i, s := range systems {
		if i > 0 {
			y += systemGap * l.options.space()
		}
		d.Items = append(d.Items, surface.Group{Class: "system", Items: s.draw(surface.Pt(0, y))})
		y += s.height() * l.options.space()
	}
	d.Height = y
	return d
}

// Systems returns the systems of Sheet as drawings of their own, so that a page
// can redraw one and leave the others. Each includes the white space before the
// next, and the number of the system is added to the options' prefix: "sheet-"
// gives "sheet-1-", "sheet-2-".
func Systems(ex *exercise.Exercise, opt Options) []surface.Drawing {
	l, width, systems := sheetSystems(ex, opt)
	drawings := make([]surface.Drawing, len(systems))
	for i, s := range systems {
		d := l.drawing(width)
		d.Prefix += strconv.Itoa(i+1) + "-"
		d.Items = []surface.Item{surface.Group{Class: "system", Items: s.draw(surface.Point{})}}
		d.Height = s.height() * l.options.space()
		if !s.last {
			d.Height += systemGap * l.options.space()
		}
		if len(systems) > 1 {
			d.Title = fmt.Sprintf("System %d of %d", i+1, len(systems))
			d.Description = s.describe()
		}
		drawings[i] = d
	}
	return drawings
}

// sheetSystems lays the line out in systems for a screen, and returns the
// width in mm that they take.
func sheetSystems(ex *exercise.Exercise, opt Options) (*layout, float64, []*system) {
	width := opt.Width
	if width <= 0 {
		width = sheetWidth
	}
	l := newLayout(ex, opt)
	l.fit(width)
	return l, width, l.systems(width / l.options.space())
}

// fit makes the staff smaller until every beat fits the width in mm.
func (l *layout) fit(width float64) {
	wanted := l.options.space()
	if fits := width / (l.leastWidth() + 1); fits < wanted {
		l.options.Space = max(fits, wanted*smallestSpace)
	}
}

// drawing returns an empty drawing of the exercise with its title and
// description.
func (l *layout) drawing(width float64) surface.Drawing {
	return surface.Drawing{
		ByRow: l.options.ByRow,
		Width: width, Title: cmp.Or(l.options.Title, l.exercise.Sentence, "score"), Description: l.describe(),
		Prefix: l.options.Prefix, Theme: l.options.Theme,
	}
}
