package finger

import "heddle/neck"

// list appends every way to play note i, each with its own cost. The ways from
// before to begin are those of the note before it.
func (s *search) list(notes []Note, i int, c *change, before, begin int) {
	n := &notes[i]
	for _, spot := range n.Spots {
		w := way{total: n.cost(spot), back: -1, string: int8(spot.String), fret: int8(spot.Fret)}
		picks := s.picks(notes, i, spot, c)
		if spot.Fret == 0 {
			s.listOpen(w, picks, before, begin)
			continue
		}
		if s.grasped[spot.Fret] == nil {
			s.grasped[spot.Fret] = s.grasps(spot.Fret)
		}
		for _, g := range s.grasped[spot.Fret] {
			if n.Given == 0 || n.Given == int(g.finger) {
				v := w
				v.finger, v.position = g.finger, g.position
				v.total += g.cost
				if n.pushed() {
					v.total += bending[g.finger]
				}
				s.listPicks(v, picks)
			}
		}
	}
}

// cost returns the cost of a spot for the note, however it is stopped.
func (n *Note) cost(spot neck.Spot) effort {
	var cost effort
	switch {
	case n.Preferred.String == 0:
		cost = effort(spot.Fret)*perFret + effort(max(0, spot.Fret-highFret))*perHighFret
	case spot != n.Preferred:
		cost = notPreferred
	}
	if spot.Fret == 0 {
		cost += openString
	}
	return cost
}

// listOpen appends an open string once for each position that the hand may be in.
func (s *search) listOpen(w way, picks pickSet, before, begin int) {
	if before == begin {
		s.listPicks(w, picks)
		return
	}
	clear(s.seen)
	for b := before; b < begin; b++ {
		p := s.ways[b].position
		mark := &s.seen[int(p.first)*(widestHand+1)+int(p.span)]
		if *mark || s.ways[b].total >= never {
			continue
		}
		*mark = true
		v := w
		v.position = p
		v.total += effort(max(0, p.first-1)) * openFromAfar
		s.listPicks(v, picks)
	}
}

// listPicks appends the way with each of the picks.
func (s *search) listPicks(w way, picks pickSet) {
	for w.pick = pickDown; w.pick <= slur; w.pick++ {
		if picks&(1<<w.pick) == 0 {
			continue
		}
		s.ways = append(s.ways, w)
		if len(s.order) == 0 && w.pick == pickUp {
			s.ways[len(s.ways)-1].total += upFirst
		}
	}
}

// A pickSet is a set of picks, one bit each.
type pickSet uint8

const (
	downOnly pickSet = 1 << pickDown
	upOnly   pickSet = 1 << pickUp
	slurOnly pickSet = 1 << slur
)

// picks returns the picks that the technique allows for note i at a spot, after
// any spot of the note before.
func (s *search) picks(notes []Note, i int, spot neck.Spot, c *change) pickSet {
	switch {
	case s.picking == Alternate:
		return downOnly << (i % 2)
	case i == 0:
		return downOnly | upOnly
	}
	var set pickSet
	for _, from := range notes[i-1].Spots {
		strings := from.String - spot.String
		switch {
		case s.picking == Legato && strings == 0 && !c.parted && from.Fret != spot.Fret:
			set |= slurOnly
		case s.picking == Legato || strings == 0:
			set |= downOnly | upOnly
		default:
			set |= downOnly << economyStroke(pickDown, strings)
		}
	}
	return set
}
