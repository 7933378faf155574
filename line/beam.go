package line

// A Beam is what one level of beams does at a note.
type Beam byte

// The beams, as read from left to right.
const (
	BeamBegins Beam = iota
	BeamContinues
	BeamEnds
	BeamHookForward  // a beam of this note alone, towards the next
	BeamHookBackward // towards the one before
)

// beam joins the flagged notes of each beat, up to a rest. Plain eighths are joined
// over all quarters of a part of the bar: in fours in 4/4, never across its middle, and
// in sixes in 3/4 (common practice; Gould 2011, "Beam groups", from memory). No beam
// begins inside a tuplet and ends outside it, or the other way round.
func beam(p Pulse, written []Written) {
	stretch := p.beamStretches(written)
	for i := 0; i < len(written); {
		n := beamGroup(stretch, written[i:])
		if n > 1 {
			beamLevels(p, written[i:i+n])
		}
		i += max(1, n)
	}
}

// beamStretches returns for each beat the first one that it may share a beam with:
// itself, or in a bar of quarters the first of its part where that holds nothing shorter
// than an eighth.
func (p Pulse) beamStretches(written []Written) []int {
	single := make([]bool, len(p.strong)) // for the first beat of a part: beamed beat by beat
	first := make([]int, len(p.strong))
	start, inQuarters := 0, p.edges[1]-p.edges[0] == Quarter && !unequal(p.edges)
	for beat := range first {
		if p.strong[beat] {
			start = beat
		}
		first[beat], single[start] = start, !inQuarters
	}
	for i := range written {
		if w := &written[i]; w.Tuplet != nil || w.Value.Flags() > 1 {
			single[first[w.Beat]] = true
		}
	}
	for beat := range first {
		if single[first[beat]] {
			first[beat] = beat
		}
	}
	return first
}

// beamGroup returns how many signs from the first on share one beam.
func beamGroup(stretch []int, written []Written) int {
	n := 0
	for n < len(written) && written[n].Note != Silence && written[n].Value.Flags() > 0 && stretch[written[n].Beat] == stretch[written[0].Beat] {
		n++
	}
	if n == 0 {
		return 0
	}
	first, last := &written[0], &written[n-1]
	if first.Tuplet != nil && !first.Opens() {
		for i := range written[:n] {
			if written[i].Closes() {
				return i + 1
			}
		}
	}
	if last.Tuplet != nil && !last.Closes() {
		for i := n - 1; i > 0; i-- {
			if written[i].Opens() {
				return i
			}
		}
	}
	return n
}

// beamLevels sets the beams of one group, level by level. A note alone at its
// level gets a hook.
func beamLevels(p Pulse, group []Written) {
	for i := range group {
		w := &group[i]
		w.Beams = make([]Beam, w.Value.Flags())
		for level := range w.Beams {
			before := i > 0 && group[i-1].Value.Flags() > level && !parted(p, &group[i-1], w, level)
			after := i+1 < len(group) && group[i+1].Value.Flags() > level && !parted(p, w, &group[i+1], level)
			switch {
			case before && after:
				w.Beams[level] = BeamContinues
			case before:
				w.Beams[level] = BeamEnds
			case after:
				w.Beams[level] = BeamBegins
			case i > 0 && (i == len(group)-1 || hooksBack(p, w)):
				w.Beams[level] = BeamHookBackward
			default:
				w.Beams[level] = BeamHookForward
			}
		}
	}
}

// parted reports whether beams of a level, counted from 0, break between two notes:
// from the second level on at the edge of a tuplet, from the third on at the half of
// a beat.
func parted(p Pulse, before, after *Written, level int) bool {
	if level >= 1 && before.Tuplet != after.Tuplet {
		return true
	}
	start, _ := p.Span(after.Beat)
	return level >= 2 && after.Tuplet == nil && (after.Start-start)%(Quarter/2) == 0
}

// hooksBack reports whether a note inside a group that is alone at its level
// ends a larger division of its beat or tuplet, rather than beginning one.
func hooksBack(p Pulse, w *Written) bool {
	start, _ := p.Span(w.Beat)
	if w.Tuplet != nil {
		start = w.Tuplet.Start
	}
	return (w.Start-start)/(w.End-w.Start)%2 == 1
}
