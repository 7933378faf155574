package midi

import (
	"math"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// usual reports whether a position lies on a common division of the quarter
// note: 64ths, 32nd triplets or 32nd quintuplets.
func usual(b line.Beat) bool {
	return b%(line.Quarter/16) == 0 || b%(line.Quarter/24) == 0 || b%(line.Quarter/20) == 0
}

// A division is a quarter note in equal parts. The notes of a beat move to the
// division that fits them best; the weight lets plainer ones win close calls.
type division struct {
	parts  line.Beat
	weight float64
	fewest int // onsets in a beat for which it is tried
}

// divisions: sixteenths, triplet sixteenths, thirty-seconds, quintuplets. The
// weights are ours, chosen so that a swung pair reads as a triplet and a lone
// late note does not read as a quintuplet.
var divisions = [...]division{{4, 1, 1}, {6, 2, 1}, {8, 4, 2}, {5, 4, 4}}

// tidy moves notes that were played, or exported with gaps, to where they would
// be written.
func (m *midiImport) tidy() {
	played := false
	for _, n := range m.Notes {
		played = played || !usual(n.Start)
	}
	if played {
		m.snapOnsets()
	}
	m.lengthen()
}

// snapOnsets moves every onset to the division that fits its beat best. If
// several notes fall together, the last is kept: the others are grace notes.
func (m *midiImport) snapOnsets() {
	farthest := line.Beat(0)
	for first := 0; first < len(m.Notes); {
		beat := nearestMultiple(m.Notes[first].Start-line.Quarter/2+line.Quarter/16, line.Quarter)
		end := first
		for end < len(m.Notes) && m.Notes[end].Start < beat+line.Quarter-line.Quarter/16 {
			end++
		}
		end = max(end, first+1)
		part := bestDivision(m.Notes[first:end], beat)
		for i := first; i < end; i++ {
			n := &m.Notes[i]
			to := nearestMultiple(n.Start-beat, part) + beat
			farthest = max(farthest, to-n.Start, n.Start-to)
			n.Start = to
		}
		first = end
	}
	kept := m.Notes[:0]
	for i, n := range m.Notes {
		if i+1 == len(m.Notes) || m.Notes[i+1].Start > n.Start {
			kept = append(kept, n)
		}
	}
	graces := len(m.Notes) - len(kept)
	m.Notes = kept
	m.Remark("onsets moved to the nearest division of the beat, by up to %.2f of a quarter note", farthest.Quarters())
	if graces > 0 {
		m.Remark("%s left out", pitch.Count(graces, "grace note"))
	}
}

// bestDivision returns the length of the parts that the onsets of one beat fit
// with the least weighted square error. A note that would fall on the one
// before counts as a whole beat off.
func bestDivision(notes []exercise.GivenNote, beat line.Beat) line.Beat {
	best, least := line.Quarter/4, math.Inf(1)
	for _, d := range divisions {
		if len(notes) < d.fewest {
			continue
		}
		part := line.Quarter / d.parts
		sum, before := 0.0, line.Beat(-1)
		for _, n := range notes {
			to := nearestMultiple(n.Start-beat, part)
			off := float64(n.Start - beat - to)
			sum += off * off
			if to == before {
				sum += float64(line.Quarter * line.Quarter)
			}
			before = to
		}
		if sum *= d.weight; sum < least {
			best, least = part, sum
		}
	}
	return best
}

// nearestMultiple rounds to the nearest multiple of part, halves up.
func nearestMultiple(b, part line.Beat) line.Beat {
	b += part / 2
	if b < 0 {
		return -((-b + part - 1) / part) * part
	}
	return b / part * part
}

// lengthen gives notes that do not end on a usual division the length they would
// be written with: up to the next note, if the silence before it is no longer
// than the note, otherwise to the nearest thirty-second.
func (m *midiImport) lengthen() {
	changed := 0
	const step = line.Quarter / 8
	for i := range m.Notes {
		n := &m.Notes[i]
		next := line.Beat(math.MaxInt)
		if i+1 < len(m.Notes) {
			next = m.Notes[i+1].Start
		}
		if n.End() <= next && usual(n.End()) {
			continue
		}
		changed++
		end := n.Start + max(step, nearestMultiple(n.Duration, step))
		if i+1 < len(m.Notes) && next-n.End() <= n.Duration {
			end = next
		}
		n.Duration = min(end, next) - n.Start
	}
	if changed > 0 {
		m.Remark("%s given the length it would be written with", pitch.Count(changed, "note"))
	}
}
