package exercise

import (
	"heddle/line"
	"heddle/pitch"
)

// setChords puts the chords over the whole bars up to an end.
func (ex *Exercise) setChords(p *plan, end line.Beat) {
	ex.Length = end
	for cycle := line.Beat(0); cycle < end; cycle += p.cycle {
		for i, s := range p.spans {
			start, until := cycle+s.start, cycle+p.cycle
			if i+1 < len(p.spans) {
				until = cycle + p.spans[i+1].start
			}
			if start >= end {
				break
			}
			ex.addChord(s.chord, start, min(until, end))
		}
	}
}

// addChord appends a chord, or makes the last one longer if it is the same.
func (ex *Exercise) addChord(chord pitch.Chord, start, end line.Beat) {
	if n := len(ex.Chords); n > 0 && ex.Chords[n-1].Symbol == chord.Symbol {
		ex.Chords[n-1].End = end
		return
	}
	ex.Chords = append(ex.Chords, ex.voiced(chord, start, end))
}

// voiced returns a chord with its voicing, the same each time it appears.
func (ex *Exercise) voiced(chord pitch.Chord, start, end line.Beat) Chord {
	for _, before := range ex.Chords {
		if before.Symbol == chord.Symbol {
			before.Start, before.End = start, end
			return before
		}
	}
	voicing := chord.Voicing()
	return Chord{Chord: chord, Start: start, End: end, Voicing: voicing, hearing: pitch.Hear(voicing)}
}

// ChordAt returns the chord at a time. The first chord also counts before its start,
// and the last one after its end.
func (ex *Exercise) ChordAt(at line.Beat) Chord {
	i := len(ex.Chords) - 1
	for i > 0 && ex.Chords[i].Start > at {
		i--
	}
	return ex.Chords[i]
}

// homeAt returns the home scale at a time.
func (p *plan) homeAt(at line.Beat) pitch.Scale {
	at = max(0, at) % p.cycle
	i := len(p.spans) - 1
	for i > 0 && p.spans[i].start > at {
		i--
	}
	return p.spans[i].scales[0]
}
