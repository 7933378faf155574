package score

import "heddle/score/surface"

// An octaveLine is the part of an 8va line in one system.
type octaveLine struct {
	from, to float64
	ends     bool // whether the line ends in this system
	notes    []int
}

// Octave line geometry in staff spaces.
const (
	octaveGap  = 0.7 // above the notes
	octaveHook = 0.8
	octaveRise = 1.7 // height of the sign
)

var octaveDash = []float64{0.6, 0.5}

// octaveLinesOf finds the 8va lines of the system.
func (s *system) octaveLinesOf() (lines []octaveLine) {
	for i := 0; i < len(s.heads); i++ {
		if !s.octaves[s.heads[i].event.Note] {
			continue
		}
		o := octaveLine{from: min(s.heads[i].x-halfHead, s.right-surface.OctaveHigher.Width())}
		for ; i < len(s.heads) && s.octaves[s.heads[i].event.Note]; i++ {
			o.to = s.heads[i].x + halfHead
			o.notes = append(o.notes, s.heads[i].event.Note)
		}
		last := s.heads[i-1].event
		next := last.Note + 1
		o.ends = i < len(s.heads) || !last.TieTo && (next >= len(s.octaves) || !s.octaves[next])
		if !o.ends {
			o.to = s.right
		}
		lines = append(lines, o)
	}
	return lines
}

// draw draws the sign at a baseline, the dashes, and the hook where the line ends.
func (o octaveLine) draw(p pen, y float64) []surface.Item {
	e := surface.Engraving()
	sign := surface.OctaveHigher
	items := []surface.Item{p.sign(sign, o.from-sign.Box().MinX, y)}
	from, middle := o.from+sign.Width()+0.4, y-octaveRise/2
	if from < o.to {
		dash := make([]float64, len(octaveDash))
		for i, length := range octaveDash {
			dash[i] = length * p.space
		}
		items = append(items, p.dashed(from, middle, o.to, middle, e.ThinBar, dash, surface.Ink))
	}
	if o.ends {
		end := max(from, o.to)
		items = append(items, p.line(end, middle-e.ThinBar/2, end, middle+octaveHook, e.ThinBar, surface.Ink))
	}
	return items
}
