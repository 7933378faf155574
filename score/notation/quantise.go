package notation

import (
	"cmp"
	"slices"

	"heddle/exercise"
	"heddle/line"
)

// A grid is a way to divide a beat, and how much a reader pays for it: what
// it must gain over a simpler one, in Beats of summed error.
type grid struct {
	step  line.Beat
	price line.Beat
}

// grids are tried on beats whose notes are on none of them exactly (lines that
// were played or imported), simplest first; the prices are chosen by eye.
var grids = []grid{
	{line.Quarter / 2, 0},
	{line.Quarter / 4, 40},
	{line.Quarter / 3, 60},
	{line.Quarter / 6, 110},
	{line.Quarter / 8, 120},
	{line.Quarter / 5, 160},
	{line.Quarter / 12, 200},
	{line.Quarter / 16, 220},
}

// plainGrid is the finest step outside tuplets: a sixty-fourth.
const plainGrid = line.Quarter / 16

// spansOf returns the written time of every note, in order. Notes that
// overlap are cut where the next one begins: a line has one voice. A beat
// whose notes lie on no grid is moved to the nearest simple one.
func spansOf(notes []exercise.Note, p line.Pulse) []line.Span {
	spans := make([]line.Span, len(notes))
	for i, n := range notes {
		spans[i] = line.Span{Note: i, Start: n.Start, End: n.End()}
	}
	slices.SortStableFunc(spans, func(a, b line.Span) int { return cmp.Compare(a.Start, b.Start) })
	snap := snapper(spans, p)
	steps := make([]line.Beat, len(spans))
	for i := range spans {
		spans[i].Start, steps[i] = snap(spans[i].Start)
		spans[i].End, _ = snap(spans[i].End)
	}
	for i := range spans {
		s := &spans[i]
		if i > 0 {
			s.Start = max(s.Start, spans[i-1].End)
		}
		if s.End <= s.Start {
			s.End = s.Start + steps[i]
		}
		if i+1 < len(spans) && spans[i+1].Start > s.Start {
			s.End = min(s.End, spans[i+1].Start)
		}
	}
	return spans
}

// snapper returns a function that moves a time onto the grid of its beat, and
// returns the grid's step.
func snapper(spans []line.Span, p line.Pulse) func(line.Beat) (moved, step line.Beat) {
	type place struct {
		bar  line.Beat
		beat int
	}
	locate := func(t line.Beat) (place, line.Beat) {
		bar := floorDiv(t, p.Bar())
		beat := p.BeatAt(t - bar*p.Bar())
		from, _ := p.Span(beat)
		return place{bar, beat}, bar*p.Bar() + from
	}
	times := map[place][]line.Beat{}
	for _, s := range spans {
		for _, t := range [2]line.Beat{s.Start, s.End} {
			where, from := locate(t)
			times[where] = append(times[where], t-from)
		}
	}
	steps := map[place]line.Beat{}
	for where, offsets := range times {
		from, to := p.Span(where.beat)
		steps[where] = gridOf(offsets, to-from)
	}
	return func(t line.Beat) (moved, step line.Beat) {
		where, from := locate(t)
		if step := steps[where]; step > 0 {
			return from + nearest(t-from, step), step
		}
		return t, plainGrid
	}
}

// gridOf returns the step that times within a beat of a size should move to,
// or 0 if they already lie where they can be written.
func gridOf(offsets []line.Beat, size line.Beat) line.Beat {
	if writable(offsets, size) {
		return 0
	}
	best, bestCost := plainGrid, line.Beat(1<<40)
	for _, g := range grids {
		if size%g.step != 0 {
			continue
		}
		cost := g.price
		for _, t := range offsets {
			moved := nearest(t, g.step)
			cost += max(moved-t, t-moved)
		}
		if cost < bestCost {
			best, bestCost = g.step, cost
		}
	}
	return best
}

// nearest returns the multiple of step that is nearest to t.
func nearest(t, step line.Beat) line.Beat { return floorDiv(t+step/2, step) * step }

// finestGrids are the steps in which a beat may be written as it is: of
// sixty-fourths, and of thirty-seconds in triplets and in quintuplets.
var finestGrids = [...]line.Beat{plainGrid, line.Quarter / 12, line.Quarter / 20}

// writable reports whether the times within a beat of a size can be written as
// they are: on one grid, or on one in each eighth of the beat, if no note lasts
// from eighth to eighth.
func writable(offsets []line.Beat, size line.Beat) bool {
	if onOneGrid(offsets, 0, size) {
		return true
	}
	const eighth = line.Quarter / 2
	for from := line.Beat(0); from < size; from += eighth {
		if from > 0 && !slices.Contains(offsets, from) || !onOneGrid(offsets, from, from+eighth) {
			return false
		}
	}
	return true
}

// onOneGrid reports whether those times that lie between two lie on one grid.
func onOneGrid(times []line.Beat, from, to line.Beat) bool {
	return slices.ContainsFunc(finestGrids[:], func(step line.Beat) bool {
		return !slices.ContainsFunc(times, func(t line.Beat) bool { return t > from && t < to && (t-from)%step != 0 })
	})
}

// floorDiv divides rounding down, for times before the first bar line.
func floorDiv(a, b line.Beat) line.Beat {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
