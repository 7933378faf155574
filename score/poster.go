package score

import "heddle/score/surface"

import "heddle/exercise"

// endless is taller in mm than any exercise: a page that is never full.
const endless = 1e6

// Poster returns the exercise as one picture: what Pages puts on paper, on a
// single sheet as tall as it needs and as wide as the options ask, or as the
// page. It fails where Pages does.
func Poster(ex *exercise.Exercise, opt Options) (surface.Drawing, error) {
	if ex.Instrument.Strings() == 0 {
		return surface.Drawing{}, errNoStrings
	}
	width, _ := opt.Page.size()
	if opt.Width > 0 {
		width = max(opt.Width, 4*sideMargin)
	}
	l := newLayout(ex, opt)
	l.fit(width - 2*sideMargin)
	b := pageBuilder{layout: l, width: width, height: endless}
	b.newPage()
	b.heading(width - 2*sideMargin)
	b.music(l.systems((width - 2*sideMargin) / l.options.space()))
	d := b.pages[0]
	d.Height = b.y - systemGap*l.options.space() + topMargin
	return d, nil
}
