package line

import "math/bits"

// A NoteValue is a duration as it is drawn: a whole note halved a number of
// times, with or without a dot.
type NoteValue struct {
	Halvings int // 0 whole, 1 half, 2 quarter, 3 eighth … 10, a 1024th
	Dots     int // 0 or 1
}

const (
	whole  = 4 * Quarter // the longest value drawn
	finest = 10          // halvings of the shortest value drawn, in tuplets

	// grain is the shortest length drawn outside tuplets, a 256th note; every
	// power-of-two part of a quarter down to it is a whole number of beats.
	grain = whole / 256
)

// Flags returns how many flags or beams the value has.
func (v NoteValue) Flags() int { return max(0, v.Halvings-2) }

// NoteValueOf returns the single value of exactly this length outside tuplets,
// and whether there is one.
func NoteValueOf(length Beat) (NoteValue, bool) {
	for v := (NoteValue{}); whole>>v.Halvings >= grain; v.Halvings++ {
		switch base := whole >> v.Halvings; {
		case length == base:
			return v, true
		case length == base+base/2:
			v.Dots = 1
			return v, base > grain
		}
	}
	return NoteValue{}, false
}

// times returns the value that lasts as long as n of this undotted one. n is a
// power of two, or one and a half times a power of two.
func (v NoteValue) times(n int) NoteValue {
	if n%3 == 0 {
		n, v.Dots = n/3*2, 1
	}
	v.Halvings -= bits.Len(uint(n)) - 1
	return v
}

// unitPieces splits a number of units into lengths that a single value has, the
// longest first: 5 is 4 + 1, 7 is 6 + 1.
func unitPieces(units int) []int {
	var pieces []int
	for units > 0 {
		piece := 1 << (bits.Len(uint(units)) - 1)
		if piece >= 2 && units >= piece+piece/2 {
			piece += piece / 2
		}
		pieces = append(pieces, piece)
		units -= piece
	}
	return pieces
}
