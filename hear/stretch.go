package hear

import "slices"

// A stretch is a part of an attempt that is played without a halt, and its
// beat.
type stretch struct {
	pairs []pair
	beat  pulse
}

// A player halts where the next note comes so much later than it is written,
// in seconds and in quarter notes: to look for a fret, or to turn a page.
const (
	haltS        = 0.7
	haltQuarters = 1.5
)

// stretches cuts an attempt where the player halts. To a click nobody's beat
// starts anew.
func (m *marker) stretches(attempt []pair) [][]pair {
	if m.fixed {
		return [][]pair{attempt}
	}
	var cut [][]pair
	start := 0
	for k := 1; k < len(attempt); k++ {
		a, b := attempt[k-1], attempt[k]
		written := (m.written[b.written].quarters - m.written[a.written].quarters) * m.quarterS
		late := m.heard[b.heard].OnsetS - m.heard[a.heard].OnsetS - written
		if late > max(haltS, haltQuarters*m.quarterS) {
			cut = append(cut, attempt[start:k])
			start = k
		}
	}
	return append(cut, attempt[start:])
}

// timing returns the stretches of an attempt and how late each of its notes
// is: against the click, or against the pulse around the note.
func (m *marker) timing(attempt []pair) (all []stretch, lateS []float64) {
	for _, pairs := range m.stretches(attempt) {
		notes := m.struck(pairs)
		s := stretch{pairs: pairs, beat: pulse{startS: m.startS, quarterS: m.quarterS}}
		if !m.fixed {
			s.beat = fitPulse(notes, 0, 0, pulse{quarterS: m.quarterS})
		}
		for _, n := range notes {
			near := s.beat
			if !m.fixed {
				near = fitPulse(notes, n.quarters, ownBeatQuarters, s.beat)
			}
			lateS = append(lateS, n.onsetS-near.at(n.quarters))
		}
		all = append(all, s)
	}
	return all, lateS
}

// setTempo gives the report the tempo of the longest stretch and the start of
// the attempt that the first note's mark comes from.
func (m *marker) setTempo(r *Report, all []stretch) {
	if len(all) == 0 {
		r.Tempo = m.ex.Tempo
		return
	}
	longest := slices.MaxFunc(all, func(a, b stretch) int { return len(a.pairs) - len(b.pairs) })
	r.Tempo = round(60/longest.beat.quarterS, 0.1)
	r.startTempo, r.endTempo = m.thirds(longest)
	first := m.written[0].quarters
	r.OffsetS = round(longest.beat.at(first), 1e-3)
	for _, s := range slices.Backward(all) {
		if s.pairs[0].written == 0 {
			r.OffsetS = round(s.beat.at(first), 1e-3)
			break
		}
	}
}

// thirds returns the tempo of the first and of the last third of a stretch, or
// noughts when it is too short to have them.
func (m *marker) thirds(s stretch) (first, last float64) {
	n := len(s.pairs) / 3
	if n < 6 || m.fixed {
		return 0, 0
	}
	tempo := func(part []pair) float64 {
		return 60 / fitPulse(m.struck(part), 0, 0, s.beat).quarterS
	}
	return tempo(s.pairs[:n]), tempo(s.pairs[len(s.pairs)-n:])
}

func (m *marker) struck(pairs []pair) []struck {
	notes := make([]struck, len(pairs))
	for k, p := range pairs {
		notes[k] = struck{quarters: m.written[p.written].quarters, onsetS: m.heard[p.heard].OnsetS}
	}
	return notes
}
