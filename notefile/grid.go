package notefile

import (
	"math"

	"heddle/line"
)

// usual reports whether a position lies on a division that notation uses
// without remark: 64ths, 32nds in threes, or 32nds in fives and tens.
func usual(b line.Beat) bool {
	return b%(quarter/16) == 0 || b%(quarter/24) == 0 || b%(quarter/20) == 0
}

// A division cuts a quarter note in equal parts. Playing is moved to the one
// that fits a beat best; weight makes the plainer ones win when it is close.
type division struct {
	parts  line.Beat
	weight float64
	fewest int // onsets in a beat from which it is thought of
}

// divisions: sixteenths, triplet sixteenths, thirty-seconds, quintuplets. The
// weights are ours, chosen so that a swung pair reads as a triplet and a lone
// late note does not read as a quintuplet.
var divisions = [...]division{{4, 1, 1}, {6, 2, 1}, {8, 4, 2}, {5, 4, 4}}

// tidy moves notes that were played, or exported with gaps between them, to
// where they would be written.
func (m *midiImport) tidy() {
	played := false
	for _, n := range m.Notes {
		played = played || !usual(n.Start)
	}
	if played {
		m.snapOnsets()
	}
	m.drawOut()
}

// snapOnsets moves every onset to the division of its beat that fits best. Of
// notes that fall together the last stays: the others are grace notes.
func (m *midiImport) snapOnsets() {
	farthest := line.Beat(0)
	for first := 0; first < len(m.Notes); {
		beat := nearestMultiple(m.Notes[first].Start-quarter/2+quarter/16, quarter)
		end := first
		for end < len(m.Notes) && m.Notes[end].Start < beat+quarter-quarter/16 {
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
	m.remark("onsets moved to the nearest division of the beat, by up to %.2f of a quarter note", farthest.Quarters())
	if graces > 0 {
		m.remark("%s left out", count(graces, "grace note"))
	}
}

// bestDivision returns the length of the parts in which the onsets of one beat
// lie with the least weighted square error, notes that would fall together
// counting as a whole beat off.
func bestDivision(notes []Note, beat line.Beat) line.Beat {
	best, least := quarter/4, math.Inf(1)
	for _, d := range divisions {
		if len(notes) < d.fewest {
			continue
		}
		part := quarter / d.parts
		sum, before := 0.0, line.Beat(-1)
		for _, n := range notes {
			to := nearestMultiple(n.Start-beat, part)
			off := float64(n.Start - beat - to)
			sum += off * off
			if to == before {
				sum += float64(quarter * quarter)
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

// drawOut gives notes that stop short of a usual division the length they are
// written with: to the next note, if the silence before it is no longer than
// the note; else to the nearest thirty-second.
func (m *midiImport) drawOut() {
	drawn := 0
	const step = quarter / 8
	for i := range m.Notes {
		n := &m.Notes[i]
		next := line.Beat(math.MaxInt)
		if i+1 < len(m.Notes) {
			next = m.Notes[i+1].Start
		}
		if n.End() <= next && usual(n.End()) {
			continue
		}
		drawn++
		end := n.Start + max(step, nearestMultiple(n.Duration, step))
		if i+1 < len(m.Notes) && next-n.End() <= n.Duration {
			end = next
		}
		n.Duration = min(end, next) - n.Start
	}
	if drawn > 0 {
		m.remark("%s given the length it would be written with", count(drawn, "note"))
	}
}
