package finger

// list appends every way to play a note, each with what it costs by itself.
// Before and begin bound the ways of the note before it.
func (s *search) list(n *Note, before, begin int, opening bool) {
	for _, spot := range n.Spots {
		w := way{back: -1, string: int8(spot.String), fret: int8(spot.Fret)}
		switch {
		case n.Preferred.String == 0:
			w.total = height(spot.Fret)
		case spot != n.Preferred:
			w.total = notPreferred
		}
		if spot.Fret == 0 {
			w.total += openString
			s.listOpen(w, before, begin, opening)
			continue
		}
		if s.grasped[spot.Fret] == nil {
			s.grasped[spot.Fret] = s.grasps(spot.Fret)
		}
		for _, g := range s.grasped[spot.Fret] {
			if n.Given != 0 && n.Given != int(g.finger) {
				continue
			}
			v := w
			v.finger, v.position = g.finger, g.position
			v.total += g.cost
			s.listPicks(v, opening)
		}
	}
}

// listOpen appends an open string once for each position that the hand may
// lie in from before.
func (s *search) listOpen(w way, before, begin int, opening bool) {
	if opening {
		s.listPicks(w, opening)
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
		s.listPicks(v, opening)
	}
}

// listPicks appends the way with each stroke that its technique may use.
func (s *search) listPicks(w way, opening bool) {
	w.pick = pickDown
	switch {
	case s.technique.Picking == Alternate:
		w.pick = s.turn
		s.ways = append(s.ways, w)
		return
	case opening:
		s.ways = append(s.ways, w)
		w.pick, w.total = pickUp, w.total+upFirst
		s.ways = append(s.ways, w)
		return
	}
	s.ways = append(s.ways, w)
	w.pick = pickUp
	s.ways = append(s.ways, w)
	if s.technique.Picking == Legato {
		w.pick = slur
		s.ways = append(s.ways, w)
	}
}
