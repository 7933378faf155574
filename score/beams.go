package score

import (
	"math"

	"heddle/line"
	"heddle/score/surface"
)

// A beam joins the stems of the short notes of one beat.
type beam struct {
	heads  []*head
	up     bool
	y0     float64 // outer edge at the first stem
	slope  float64 // rise of y for one staff space of x
	levels int     // beams of its shortest note
}

// Beam geometry in staff spaces, after common practice (Gould 2011, "Beams").
const (
	steepest      = 1.25 // the most that a beam's ends differ
	slopeOfRise   = 0.4  // of the distance between the outer notes
	shortestStem  = 2.75 // under one beam or two
	steepestSlope = 0.25 // on short beams
)

// beamsOf finds the beams of the system. No system ends inside one.
func (s *system) beamsOf() []*beam {
	var beams []*beam
	var open []*head
	for i := range s.heads {
		h := &s.heads[i]
		if len(h.event.Beams) == 0 {
			continue
		}
		open = append(open, h)
		if h.event.Beams[0] == line.BeamEnds {
			beams = append(beams, newBeam(open))
			open = nil
		}
	}
	return beams
}

func newBeam(heads []*head) *beam {
	b := &beam{heads: heads}
	high, low := 0, 0
	for _, h := range heads {
		high, low = max(high, h.place), min(low, h.place)
		b.levels = max(b.levels, len(h.event.Beams))
	}
	b.up = -low > high
	for _, h := range heads {
		h.up, h.beam = b.up, b
		h.attach()
	}
	b.lay()
	for _, h := range heads {
		h.tip = b.at(h.stem)
	}
	return b
}

// at returns the beam's outer edge at x.
func (b *beam) at(x float64) float64 { return b.y0 + b.slope*(x-b.heads[0].stem) }

// lay gives the beam its slope and height.
func (b *beam) lay() {
	first, last := b.heads[0], b.heads[len(b.heads)-1]
	length := last.stem - first.stem
	rise := math.Abs(last.y-first.y) * slopeOfRise
	rise = min(rise, steepest, length*steepestSlope)
	rise = math.Round(rise*4) / 4
	if last.y < first.y {
		rise = -rise
	}
	if b.hollow() {
		rise = 0
	}
	if length > 0 {
		b.slope = rise / length
	}
	sign := first.sign()
	least := shortestStem + 0.75*float64(max(0, b.levels-2))
	b.y0 = first.y + sign*stemLength
	mean := 0.0
	for _, h := range b.heads {
		mean += (b.at(h.stem) - h.y) * sign / float64(len(b.heads))
	}
	if want := stemLength - 0.1; mean < want {
		b.y0 += sign * (want - mean)
	}
	for _, h := range b.heads {
		if short := least - (b.at(h.stem)-h.y)*sign; short > 0 {
			b.y0 += sign * short
		}
		if across := (middleLine - b.at(h.stem)) * sign; across > 0 {
			b.y0 += sign * across
		}
	}
	b.y0 = quarterUp(b.y0, sign)
}

// hollow reports whether an inner note is nearer to the beam than both outer
// ones: such a beam is level.
func (b *beam) hollow() bool {
	first, last := b.heads[0], b.heads[len(b.heads)-1]
	for _, h := range b.heads[1 : len(b.heads)-1] {
		if b.up && h.y < min(first.y, last.y) || !b.up && h.y > max(first.y, last.y) {
			return true
		}
	}
	return false
}

// draw draws the beams of every level.
func (b *beam) draw(p pen) []surface.Item {
	e := surface.Engraving()
	var items []surface.Item
	for level := range b.levels {
		for _, run := range b.runs(level) {
			items = append(items, b.segment(p, run[0], run[1], level, e))
		}
	}
	return items
}

// stubLength is the length of a beam that belongs to one note only: a
// notehead's width.
const stubLength = 1.1

// runs returns the stretches of x that carry a beam of the level, from 0.
func (b *beam) runs(level int) (runs [][2]float64) {
	half := surface.Engraving().Stem / 2
	begin := 0.0
	for _, h := range b.heads {
		if level >= len(h.event.Beams) {
			continue
		}
		from, to := h.stem-half, h.stem+half
		switch h.event.Beams[level] {
		case line.BeamBegins:
			begin = from
		case line.BeamEnds:
			runs = append(runs, [2]float64{begin, to})
		case line.BeamHookForward:
			runs = append(runs, [2]float64{from, from + stubLength})
		case line.BeamHookBackward:
			runs = append(runs, [2]float64{to - stubLength, to})
		}
	}
	return runs
}

func (b *beam) segment(p pen, from, to float64, level int, e surface.EngravingDefaults) surface.Shape {
	sign := 1.0 // towards the heads
	if !b.up {
		sign = -1
	}
	inset := sign * float64(level) * (e.Beam + e.BeamSpacing)
	a, z := b.at(from)+inset, b.at(to)+inset
	return p.shape(surface.Ink, surface.Pt(from, a), surface.Pt(to, z), surface.Pt(to, z+sign*e.Beam), surface.Pt(from, a+sign*e.Beam))
}
