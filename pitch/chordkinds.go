package pitch

import (
	"strings"
	"sync"
)

// chordRanks lists the kinds of chord that a set of notes is named after, by how common
// they are (common practice): the index is the rank, from 0 for what every player knows.
var chordRanks = []string{
	"maj m 7 m7 maj7",
	"6 m6 dim aug sus4 sus2 m7b5 dim7 9 m9 maj9 add9 6/9 7sus4 7b9 7#9 13 m11",
	"m(maj7) 7#5 7b5 maj7#5 maj7#11 7#11 7b13 madd9 m6/9 9sus4 13sus4 m9b5 m(maj9) 13b9 9#11 maj9#11 maj13 7(b9,b13) 7(#9,b13) 7(b9,#11) m7add11",
	"7(no5) m7(no5) maj7(no5) 9(no5) m9(no5) maj9(no5) add11 madd11 maj7b5 dim(maj7) 7sus2 9b13 9#5 7(#9,#11) maj9#5 13(no5) 13#11(no5)",
}

// A chordKind is a kind of chord that a set of notes may have.
type chordKind struct {
	name    string // as after the root in a symbol
	degrees []Degree
	rank    int
}

// chordKinds returns the table by the pitch classes above the root. It is read once
// and never changed.
var chordKinds = sync.OnceValue(func() map[mask][]chordKind {
	byMask := map[mask][]chordKind{}
	for rank, row := range chordRanks {
		for _, name := range strings.Fields(row) {
			degrees, ok := parseKind(name)
			if !ok {
				panic("chord kind: " + name)
			}
			m := maskOfDegrees(degrees)
			byMask[m] = append(byMask[m], chordKind{kindName(degrees), degrees, rank})
		}
	}
	return byMask
})

// inversion says which tone of the chord is at a pitch class above the root: "first
// inversion". It is empty for the root.
func (k chordKind) inversion(class int) string {
	d, _ := Chord{Degrees: k.degrees}.atClass(class)
	switch d.Number {
	case 1:
		return ""
	case 2, 3, 4:
		return "first inversion"
	case 5:
		return "second inversion"
	case 6, 7:
		return "third inversion"
	}
	return "with the " + d.Words() + " in the bass"
}
