package notefile

import (
	"math/bits"

	"heddle/line"
)

// A value is a note value as drawn: a type and its dots, and the tuplet it
// stands in. Its sounding length is the drawn one times normal over actual.
type value struct {
	Type   string // MusicXML's note-type-value: "eighth", "16th"
	Dots   int
	Actual int // notes played in the time of Normal; 0 outside tuplets
	Normal int
}

// valueTypes lists the types from the longest that is drawn, each half of the
// one before. MusicXML 4.0, note-type-value.
var valueTypes = [...]string{"breve", "whole", "half", "quarter", "eighth", "16th", "32nd", "64th", "128th", "256th", "512th", "1024th"}

const (
	longestType  = 8 * quarter // a breve
	shortestType = len(valueTypes) - 1

	// grain is the shortest length drawn outside tuplets, a 256th note; every
	// power-of-two part of a quarter down to it is a whole number of beats.
	grain = quarter / 64
)

// typeIndex returns the index in valueTypes of a length num/den, or −1.
func typeIndex(num, den int) int {
	for i := range valueTypes {
		if num<<i == den*int(longestType) {
			return i
		}
	}
	return -1
}

// flags returns how many beams or flags a type has.
func flags(kind string) int {
	const quarterIndex = 3
	for i, name := range valueTypes {
		if name == kind {
			return max(0, i-quarterIndex)
		}
	}
	return 0
}

// plainValue returns the value that lasts d outside tuplets, with at most one
// dot, and whether there is one.
func plainValue(d line.Beat) (value, bool) {
	if i := typeIndex(int(d), 1); i >= 0 {
		return value{Type: valueTypes[i]}, true
	}
	if i := typeIndex(2*int(d), 3); i >= 0 {
		return value{Type: valueTypes[i], Dots: 1}, true
	}
	return value{}, false
}

// unitPieces cuts a number of tuplet units into lengths that one value can
// draw, the longest first: 5 is 4 + 1, 7 is 6 + 1.
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
