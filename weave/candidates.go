package weave

import (
	"math/bits"

	"heddle/pitch"
)

// types are the scales that a line is read in, and how unfamiliar each is in points
// (common practice: what players superimpose, most usual first). Modes of a type have
// the same notes and are not listed.
var types = []struct {
	name       string
	unfamiliar float64
}{
	{"minor pentatonic", 0},
	{"major", 0.1},
	{"minor blues", 0.1},
	{"melodic minor", 0.75},
	{"harmonic minor", 0.75},
	{"minor six pentatonic", 0.75},
	{"dominant pentatonic", 0.75},
	{"whole tone", 0.75},
	{"octatonic half-whole", 0.75},
	{"harmonic major", 1},
	{"augmented", 1},
}

// chordUnfamiliar is the price of a chord's arpeggio as a scale.
const chordUnfamiliar = 0.75

// A classes is a set of pitch classes, one bit each.
type classes uint16

func classesOf(names []pitch.Name) (set classes) {
	for _, n := range names {
		set |= 1 << n.Class()
	}
	return set
}

func (c classes) has(class int) bool { return c>>class&1 != 0 }
func (c classes) size() int          { return bits.OnesCount16(uint16(c)) }

// shape returns the set turned so that it is the same in all keys.
func (c classes) shape() classes {
	least := c
	for range 12 {
		c = c>>1 | c&1<<11
		least = min(least, c)
	}
	return least
}

// A candidate is a scale that notes may be heard in.
type candidate struct {
	classes
	kind       classes // its shape: of one kind in all keys
	unfamiliar float64
	large      float64 // the price of each note in it
}

// A candidateList is the candidates of a request, each set of notes once.
type candidateList []candidate

func (l *candidateList) add(set classes, unfamiliar float64) {
	for i, known := range *l {
		if known.classes == set {
			(*l)[i].unfamiliar = min(known.unfamiliar, unfamiliar)
			return
		}
	}
	*l = append(*l, candidate{set, set.shape(), unfamiliar, costLarge * float64(max(0, set.size()-5))})
}

// addKeys adds the set in all twelve keys.
func (l *candidateList) addKeys(set classes, unfamiliar float64) {
	for range 12 {
		l.add(set, unfamiliar)
		set = set<<1&0xfff | set>>11
	}
}

// candidates lists the scales of a request; home is first if it is known.
func (r Request) candidates() candidateList {
	list := make(candidateList, 0, 140)
	for _, s := range r.Scales {
		list.add(classesOf(s.Notes), 0)
	}
	for _, s := range r.Scales {
		list.addKeys(classesOf(s.Notes), 0)
	}
	for _, t := range types {
		known, err := pitch.FindType(t.name)
		if err != nil {
			continue // a test finds all of them
		}
		list.addKeys(classesOf(pitch.NewScale(pitch.Name{}, known).Notes), t.unfamiliar)
	}
	for _, c := range r.Chords {
		list.add(classesOf(arpeggio(c)), chordUnfamiliar)
	}
	return list
}

// arpeggio returns the chord's tones up to the seventh.
func arpeggio(c pitch.Chord) (names []pitch.Name) {
	for _, d := range c.Degrees {
		if d.Number <= 7 {
			names = append(names, d.Above(c.Root))
		}
	}
	return names
}
