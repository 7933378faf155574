package score

import (
	"cmp"
	"slices"

	"heddle/exercise"
	"heddle/line"
)

// A span is the written time of one note: where it starts and ends, on the
// grid.
type span struct {
	note       int // index in the exercise's notes
	start, end line.Beat
}

// A grid is a way to divide a beat, and how much a reader pays for it: what
// it must gain over a simpler one, in Beats of summed error.
type grid struct {
	step  line.Beat
	price line.Beat
}

// grids are tried on beats whose notes lie on none exactly (played or foreign
// lines), simplest first; the prices are chosen by eye.
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
func spansOf(notes []exercise.Note, p pulse) []span {
	spans := make([]span, len(notes))
	for i, n := range notes {
		spans[i] = span{i, n.Start, n.Start + n.Duration}
	}
	slices.SortStableFunc(spans, func(a, b span) int { return cmp.Compare(a.start, b.start) })
	snap := snapper(spans, p)
	for i := range spans {
		spans[i].start, spans[i].end = snap(spans[i].start), snap(spans[i].end)
	}
	for i := range spans {
		s := &spans[i]
		if i > 0 {
			s.start = max(s.start, spans[i-1].end)
		}
		if s.end <= s.start {
			s.end = s.start + plainGrid
		}
		if i+1 < len(spans) && spans[i+1].start > s.start {
			s.end = min(s.end, spans[i+1].start)
		}
	}
	return spans
}

// snapper returns the function that moves a time onto the grid of its beat.
func snapper(spans []span, p pulse) func(line.Beat) line.Beat {
	type place struct {
		bar  line.Beat
		beat int
	}
	locate := func(t line.Beat) (place, line.Beat) {
		bar := floorDiv(t, p.bar)
		b := p.beat(t - bar*p.bar)
		return place{bar, b}, bar*p.bar + p.beats[b]
	}
	times := map[place][]line.Beat{}
	for _, s := range spans {
		for _, t := range [2]line.Beat{s.start, s.end} {
			where, from := locate(t)
			times[where] = append(times[where], t-from)
		}
	}
	steps := map[place]line.Beat{}
	for where, offsets := range times {
		steps[where] = gridOf(offsets, p.ends[where.beat]-p.beats[where.beat])
	}
	return func(t line.Beat) line.Beat {
		where, from := locate(t)
		if step := steps[where]; step > 0 {
			return from + nearest(t-from, step)
		}
		return t
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
		cost := g.price
		moved := make([]line.Beat, len(offsets))
		for i, t := range offsets {
			moved[i] = nearest(t, g.step)
			cost += max(moved[i]-t, t-moved[i])
		}
		if cost < bestCost && writable(moved, size) {
			best, bestCost = g.step, cost
		}
	}
	return best
}

// nearest returns the multiple of step that is nearest to t.
func nearest(t, step line.Beat) line.Beat { return floorDiv(t+step/2, step) * step }

// writable reports whether the times within a beat of a size can be written
// exactly: plainly, or in the tuplets that hold them.
func writable(offsets []line.Beat, size line.Beat) bool {
	tuplets := tupletsIn(0, size, offsets)
	return all(offsets, func(t line.Beat) bool {
		if t%plainGrid == 0 {
			return true
		}
		for _, p := range tuplets {
			if t > p.start && t < p.end && (t-p.start)%p.finest() == 0 {
				return true
			}
		}
		return false
	})
}

func all(times []line.Beat, holds func(line.Beat) bool) bool {
	return !slices.ContainsFunc(times, func(t line.Beat) bool { return !holds(t) })
}

// floorDiv divides rounding down, for times before the first bar line.
func floorDiv(a, b line.Beat) line.Beat {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
