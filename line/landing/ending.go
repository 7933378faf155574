package landing

import (
	"heddle/line"
	"heddle/pitch"
)

// ending returns a candidate as notes.
func (s *search) ending(c *candidate) Ending {
	keys, st := s.path(c)
	h := s.hands[0]
	target := s.target(c.tail[2])
	last := pitch.Named(target.Name, c.tail[2])
	e := Ending{Replaced: st.gives, Target: target.Degree, At: s.goal.At, Kind: c.kind, Cost: float64(c.cost), Notes: make([]line.Note, st.approach+1)}
	group := s.Line[len(s.Line)-1-st.gives].Group + 1
	e.Notes[st.approach] = line.Note{Pitch: last, Scale: h.scaleCalling(target.Name), Group: group, Step: st.approach + 1,
		Start: s.at, Duration: s.lasting(), Role: line.LandingRole}
	for slot, key := range keys {
		slot++
		h, i := s.hands[slot], st.approach-slot
		n := line.Note{Scale: h.scales[key], Group: group, Step: i + 1,
			Start: s.at - line.Beat(slot)*s.value, Duration: s.value, Role: line.LandingRole}
		if n.Scale == line.Chromatic {
			n.Pitch = leading(key, last)
		} else {
			n.Pitch = pitch.Named(h.names[key], key)
		}
		last, e.Notes[i] = n.Pitch, n
	}
	return e
}

// path returns the keys of the approach notes, the last one first, and where the
// approach leaves the pattern.
func (s *search) path(c *candidate) ([]int, start) {
	if c.from < 0 {
		st := s.starts[^c.from]
		return c.tail[1 : 1+st.approach], st
	}
	keys := []int{c.tail[1]}
	key, from := c.tail[0], c.from
	for slot := 2; from >= 0; slot++ {
		keys = append(keys, key)
		step := from - widest
		from = int(s.node(slot, key, step).from)
		key -= step
	}
	return keys, s.starts[^from]
}

// target returns the target of a key.
func (s *search) target(key int) Target {
	for _, t := range s.goal.Targets {
		if t.Name.Class() == key%12 {
			return t
		}
	}
	return Target{}
}

// lasting returns how long the target lasts: to the end of the goal's bar, and at
// least a quarter of it.
func (s *search) lasting() line.Beat {
	bar := s.Rhythm.Meter.Bar()
	return s.early + max(line.Quarter, line.FloorDiv(s.goal.At, bar)*bar+bar-s.goal.At)
}
