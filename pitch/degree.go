package pitch

import (
	"strconv"
	"strings"
)

// A Degree is a step of a scale or chord: a number counted from the root (1 to 7
// in a scale, up to 13 over a chord) and its alteration in semitones from the
// major scale.
type Degree struct {
	Number int
	Alter  int
}

// Semitones returns the degree's distance above the root; a ninth is 14.
func (d Degree) Semitones() int {
	return rise(d.Number-1) + d.Alter
}

// Class returns the degree's distance above the root within the octave.
func (d Degree) Class() int { return mod12(d.Semitones()) }

// String returns the degree in plain letters: "b7", "#11".
func (d Degree) String() string { return accidentals(d.Alter, "#", "b") + strconv.Itoa(d.Number) }

// Symbol returns the degree with music signs: "♭7", "♯11".
func (d Degree) Symbol() string { return accidentalSigns(d.Alter) + strconv.Itoa(d.Number) }

// MarshalText writes the plain degree.
func (d Degree) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// Above returns the name of the degree above a root.
func (d Degree) Above(root Name) Name { return root.shift(d.Number-1, d.Semitones()) }

// highestDegree is the highest degree with a name over a chord.
const highestDegree = 13

// plainDegree reads up to two # or b and a number from 1 to 13.
func plainDegree(word string) (Degree, bool) {
	number := strings.TrimLeft(word, "#b")
	signs := word[:len(word)-len(number)]
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > highestDegree || number != strconv.Itoa(n) {
		return Degree{}, false
	}
	d := Degree{Number: n}
	switch signs {
	case "", "#", "##":
		d.Alter = len(signs)
	case "b", "bb":
		d.Alter = -len(signs)
	default:
		return Degree{}, false
	}
	return d, true
}
