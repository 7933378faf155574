package hear

import "slices"

// A stretch is a part of an attempt that is played without a halt, and its beat.
type stretch struct {
	pairs []pair
	beat  beat
}

// A player halts where the next note comes so much later than it is written, in
// seconds and in quarter notes: to look for a fret, or to turn a page.
const (
	haltS        = 0.7
	haltQuarters = 1.5
)

// ownBeatQuarters is how far around a note the player's own beat is taken from:
// two bars of four on each side, so that a drifting tempo is not called bad timing
// and a rushed group still is.
const ownBeatQuarters = 8

// stretches cuts an attempt where the player halts. With a click there is one
// beat for all of it.
func (m *marker) stretches(attempt []pair) [][]pair {
	if m.clicked {
		return [][]pair{attempt}
	}
	return cut(attempt, func(a, b pair) bool {
		written := (m.written[b.written].quarters - m.written[a.written].quarters) * m.quarterS
		late := m.heard[b.heard].OnsetS - m.heard[a.heard].OnsetS - written
		return late > max(haltS, haltQuarters*m.quarterS)
	})
}

// timing returns the stretches of an attempt and how late each of its notes is:
// against the click, or against the player's beat around the note.
func (m *marker) timing(attempt []pair) (all []stretch, lateS []float64) {
	for _, pairs := range m.stretches(attempt) {
		notes := m.struck(pairs)
		s := stretch{pairs: pairs, beat: beat{startS: m.startS, quarterS: m.quarterS}}
		if !m.clicked {
			s.beat = fitBeat(notes, 0, 0, beat{quarterS: m.quarterS})
		}
		for _, n := range notes {
			near := s.beat
			if !m.clicked {
				near = fitBeat(notes, n.quarters, ownBeatQuarters, s.beat)
			}
			lateS = append(lateS, n.onsetS-near.at(n.quarters))
		}
		all = append(all, s)
	}
	return all, lateS
}

func (m *marker) struck(pairs []pair) []struck {
	notes := make([]struck, len(pairs))
	for k, p := range pairs {
		notes[k] = struck{quarters: m.written[p.written].quarters, onsetS: m.heard[p.heard].OnsetS}
	}
	return notes
}

// setTempo gives the report the tempo of the longest stretch, and the start of the
// attempt that the first note's mark comes from. It returns the tempo change.
func (m *marker) setTempo(r *Report, all []stretch) tempoChange {
	if len(all) == 0 {
		r.Tempo = m.ex.Tempo
		return tempoChange{}
	}
	longest := slices.MaxFunc(all, func(a, b stretch) int { return len(a.pairs) - len(b.pairs) })
	r.Tempo = round(60/longest.beat.quarterS, 10)
	first := m.written[0].quarters
	r.OffsetS = round(longest.beat.at(first), 1e3)
	for _, s := range slices.Backward(all) {
		if s.pairs[0].written == 0 {
			r.OffsetS = round(s.beat.at(first), 1e3)
			break
		}
	}
	return m.tempoChange(longest)
}

// A tempoChange is the tempo of the first and of the last third of a stretch; 0
// where it is too short to have them.
type tempoChange struct{ first, last float64 }

func (m *marker) tempoChange(s stretch) tempoChange {
	n := len(s.pairs) / 3
	if n < 6 || m.clicked {
		return tempoChange{}
	}
	tempo := func(part []pair) float64 {
		return 60 / fitBeat(m.struck(part), 0, 0, s.beat).quarterS
	}
	return tempoChange{first: tempo(s.pairs[:n]), last: tempo(s.pairs[len(s.pairs)-n:])}
}
