package neck

import (
	"slices"

	"heddle/pitch"
)

// maxKeys is the number of MIDI keys.
const maxKeys = 128

// A ladder is all the tones of one scale over one whole neck, lowest first,
// with the strings in the order of their open pitch.
type ladder struct {
	scale pitch.Scale
	size  int              // notes to the octave
	names [12]pitch.Name   // by pitch class, where the scale has one
	tones []int            // MIDI keys
	above [maxKeys + 1]int // index of the first tone at or above a key

	strings   int
	number    [maxStrings]int // string numbers, lowest open pitch first
	open      [maxStrings]int // their MIDI keys, at the capo if there is one
	last      int             // the last fret
	inFourths bool            // whether neighbours are a major third or a fourth apart
}

// newLadder lays the scale out on the neck; ok is false for an empty scale or an
// impossible neck.
func newLadder(in Instrument, s pitch.Scale) (l *ladder, ok bool) {
	if len(s.Notes) == 0 || in.Check() != nil {
		return nil, false
	}
	l = &ladder{scale: s, strings: in.Strings(), last: in.LastFret()}
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

// tuneStrings sorts the strings by open pitch. Of two in unison, the one with the
// higher number counts as lower.
func (l *ladder) tuneStrings(in Instrument) {
	for i := range l.strings {
		l.number[i] = l.strings - i
	}
	key := func(number int) int { return in.MIDI(Spot{String: number}) }
	slices.SortStableFunc(l.number[:l.strings], func(a, b int) int { return key(a) - key(b) })
	l.inFourths = true
	for i, number := range l.number[:l.strings] {
		l.open[i] = key(number)
		if i > 0 {
			apart := l.open[i] - l.open[i-1]
			l.inFourths = l.inFourths && number == l.number[i-1]-1 && (apart == 4 || apart == 5)
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
