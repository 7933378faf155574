package score

import "heddle/exercise"

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
func Sheet(ex *exercise.Exercise, opt Options) Drawing {
	width := opt.Width
	if width <= 0 {
		width = sheetWidth
	}
	l := newLayout(ex, opt)
	l.fit(width)
	systems := l.systems(width / l.options.space())
	d := l.drawing(width, "score")
	y := 0.0
	for i, s := range systems {
		if i > 0 {
			y += systemGap * l.options.space()
		}
		d.Items = append(d.Items, Group{Class: "system", Items: s.draw(Point{0, y})})
		y += s.height() * l.options.space()
	}
	d.Height = y
	return d
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
func (l *layout) drawing(width float64, view string) Drawing {
	return Drawing{
		Width: width, Title: titleOf(l.exercise, l.options, view), Description: describe(l.exercise, l.clef),
		Prefix: l.options.Prefix, Theme: l.options.Theme,
	}
}
