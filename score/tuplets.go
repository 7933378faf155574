package score

import (
	"slices"

	"heddle/line"
)

// tupletsOf finds the tuplets of a bar: over two beats where a long one is
// needed, else in a beat, else in the halves of a beat, always the shortest
// that hold what is written.
func tupletsOf(m measure, parts []event, p pulse) []*tuplet {
	var edges []line.Beat
	for _, e := range parts {
		edges = append(edges, e.start)
	}
	bar := floorDiv(m.start, p.bar) * p.bar
	var out []*tuplet
	for i := 0; i < len(p.beats); i++ {
		from, to := bar+p.beats[i], bar+p.ends[i]
		if i+1 < len(p.beats) && !p.strong[p.beats[i+1]] {
			if t := longTuplet(from, to, bar+p.ends[i+1], edges); t != nil {
				out = append(out, t)
				i++
				continue
			}
		}
		out = append(out, tupletsIn(from, to, edges)...)
	}
	return out
}

// longTuplet returns the tuplet of quarters over two beats, if the notes are
// just those: none begins at the second beat, some do off it.
func longTuplet(from, middle, to line.Beat, edges []line.Beat) *tuplet {
	third := (to - from) / 3
	in := inside(from, to, edges)
	if middle-from != line.Quarter || to-from != 2*line.Quarter || len(in) == 0 ||
		slices.Contains(in, middle) || !all(in, func(t line.Beat) bool { return (t-from)%third == 0 }) {
		return nil
	}
	return &tuplet{from, to, 3, 2}
}

// tupletsIn returns the tuplets in a beat or a part of it.
func tupletsIn(from, to line.Beat, edges []line.Beat) []*tuplet {
	in := inside(from, to, edges)
	if all(in, func(t line.Beat) bool { return (t-from)%plainGrid == 0 }) {
		return nil
	}
	parts := line.Beat(2)
	if (to-from)%(line.Quarter*3/4) == 0 {
		parts = 3 // a compound beat
	}
	if size := (to - from) / parts; size >= line.Quarter/4 {
		if halves, ok := eachIn(from, to, size, in); ok {
			return halves
		}
	}
	if t := tupletOver(from, to, in); t != nil {
		return []*tuplet{t}
	}
	return nil
}

// eachIn divides a beat into parts, if every part can be written by itself.
func eachIn(from, to, size line.Beat, edges []line.Beat) ([]*tuplet, bool) {
	var out []*tuplet
	for at := from; at < to; at += size {
		in := inside(at, at+size, edges)
		if all(in, func(t line.Beat) bool { return (t-from)%plainGrid == 0 }) {
			continue
		}
		t := tupletOver(at, at+size, in)
		if t == nil || at > from && !slices.Contains(edges, at) || at+size < to && !slices.Contains(edges, at+size) {
			return nil, false
		}
		out = append(out, t)
	}
	return out, true
}

// tupletOver returns the tuplet that holds edges inside it, or nil.
func tupletOver(from, to line.Beat, in []line.Beat) *tuplet {
	for _, t := range [...]tuplet{{from, to, 3, 2}, {from, to, 5, 4}} {
		if (to-from)%line.Beat(t.number) == 0 && all(in, func(e line.Beat) bool { return (e-from)%t.finest() == 0 }) {
			return &t
		}
	}
	return nil
}

// finest returns the shortest step that can be written in the tuplet: a
// quarter of its unit, where that is a value that can be written.
func (t tuplet) finest() line.Beat {
	unit := (t.end - t.start) / line.Beat(t.number)
	for _, part := range [...]line.Beat{4, 2} {
		written := unit / part * line.Beat(t.number) / line.Beat(t.normal)
		if _, single := valueOf(written); single && unit%part == 0 {
			return unit / part
		}
	}
	return unit
}

// inside returns the edges strictly between two times.
func inside(from, to line.Beat, edges []line.Beat) []line.Beat {
	var in []line.Beat
	for _, e := range edges {
		if e > from && e < to {
			in = append(in, e)
		}
	}
	return in
}
