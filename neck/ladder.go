package neck

import (
	"slices"

	"heddle/pitch"
)

// maxKeys is the number of MIDI keys.
const maxKeys = 128

// A ladder is all the tones of one scale over one whole neck, lowest first,
// with the strings that a run crosses.
type ladder struct {
	scale pitch.Scale
	size  int              // notes to the octave
	names [12]pitch.Name   // by pitch class, where the scale has one
	tones []int            // MIDI keys
	above [maxKeys + 1]int // index of the first tone at or above a key

	strings   int
	number    [maxStrings]int // string numbers, lowest open pitch first
	open      [maxStrings]int // their MIDI keys, at the capo if there is one
	doubling  []int           // the numbers of the other strings, which double notes
	last      int             // the last fret
	inFourths bool            // whether neighbours are a major third or a fourth apart
}

// newLadder lays the scale out on the neck; ok is false for an empty scale or an
// impossible neck.
func newLadder(in Instrument, s pitch.Scale) (l *ladder, ok bool) {
	if len(s.Notes) == 0 || in.Check() != nil {
		return nil, false
	}
	l = &ladder{scale: s, last: in.LastFret()}
	l.tuneStrings(in)
	var has [12]bool
	for _, n := range s.Notes {
		if class := n.Class(); !has[class] {
			has[class], l.names[class] = true, n
			l.size++
		}
	}
	lowest, highest := l.open[0], l.open[l.strings-1]+l.last
	l.tones = make([]int, 0, highest-lowest+1)
	for key := range l.above {
		l.above[key] = len(l.tones)
		if key >= lowest && key <= highest && has[key%12] {
			l.tones = append(l.tones, key)
		}
	}
	return l, true
}

// tuneStrings divides the strings into those that a run crosses and those that
// only double its notes.
func (l *ladder) tuneStrings(in Instrument) {
	crossed := in.rising()
	l.strings, l.inFourths = len(crossed), true
	for i, number := range crossed {
		l.number[i], l.open[i] = number, in.MIDI(Spot{String: number})
		if i > 0 {
			apart := l.open[i] - l.open[i-1]
			l.inFourths = l.inFourths && (apart == 4 || apart == 5)
		}
	}
	for number := 1; number <= in.Strings(); number++ {
		if !slices.Contains(crossed, number) {
			l.doubling = append(l.doubling, number)
		}
	}
}

// fret returns the fret of a tone on the i-th string from the lowest.
func (l *ladder) fret(i, tone int) int { return l.tones[tone] - l.open[i] }

// span returns the first and last tone that the i-th string has in the window.
func (l *ladder) span(i int, w Window) (first, last int) {
	return l.above[l.open[i]+w.Low], l.above[l.open[i]+w.High+1] - 1
}

// A run is a placement being made: consecutive tones from start, and for each
// string the tone after its last.
type run struct {
	start  int
	ends   [maxStrings]int
	system string
}

// evenRun returns the run of n tones on each string; ok is false if the neck has
// no room for it.
func (l *ladder) evenRun(start, n int) (r run, ok bool) {
	r.start = start
	first := start
	for i := range l.strings {
		r.ends[i] = first + n
		if r.ends[i] > len(l.tones) || l.fret(i, first) < 0 || l.fret(i, first+n-1) > l.last {
			return run{}, false
		}
		first += n
	}
	return r, true
}
