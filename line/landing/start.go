package landing

import "heddle/line"

// A start is a place where an approach may leave the pattern.
type start struct {
	cost     float32
	gives    int  // pattern notes replaced
	approach int  // approach notes to come
	key      int  // the last note kept
	before   int  // the one before it, or none
	barred   int  // what the first approach note may not be, or none; see barred
	left     bool // whether the last note kept is home or chromatic
	leftSoon bool // whether the one before it is
}

// step returns the step to the last note kept, within wider.
func (st start) step() int {
	if st.before == none {
		return 0
	}
	return max(-wider, min(wider, st.key-st.before))
}

// twoBefore returns the key two notes before the last one kept, or none.
func (s *search) twoBefore(st start) int {
	if i := len(s.Line) - 3 - st.gives; i >= 0 {
		return s.Line[i].Pitch.MIDI()
	}
	return none
}

// findStarts lists where an approach may leave the pattern.
func (s *search) findStarts() {
	for gives := 0; gives <= s.most; gives++ {
		last := len(s.Line) - 1 - gives
		kept := s.Line[last]
		st := start{gives: gives, key: kept.Pitch.MIDI(), before: none, left: s.left(kept), leftSoon: true}
		if last > 0 {
			st.before, st.leftSoon = s.Line[last-1].Pitch.MIDI(), s.left(s.Line[last-1])
		}
		for st.approach = 0; st.approach <= s.slots; st.approach++ {
			rest := s.at - line.Beat(st.approach)*s.value - kept.End()
			if rest < 0 || rest > 0 && st.approach == 0 || rest >= s.value && gives > 0 {
				continue
			}
			st.cost = float32(gives)*costReplaced + priceRest(rest)
			if s.early > 0 {
				st.cost += costAnticipated
			}
			st.barred = s.barred(st)
			s.starts = append(s.starts, st)
		}
	}
}

// left reports whether a note of the pattern is home or chromatic: the superimposed
// scales are left.
func (s *search) left(n line.Note) bool {
	for i, source := range s.Sections[s.section(n.Start)].Sources {
		if _, found := source.Scale.Named(n.Pitch.MIDI() % 12); found {
			return i == 0 || s.lenient
		}
	}
	return true
}

// barred returns the key that would repeat the first note replaced at its own time:
// an approach that begins with it is an ending that keeps that note.
func (s *search) barred(st start) int {
	if st.gives == 0 || st.approach == 0 {
		return none
	}
	first := s.Line[len(s.Line)-st.gives]
	if first.Start != s.at-line.Beat(st.approach)*s.value {
		return none
	}
	return first.Pitch.MIDI()
}
