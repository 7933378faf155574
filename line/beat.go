package line

import "fmt"

// A Beat is a point or a length of time in 1/960 of a quarter note.
type Beat int

// Quarter is one quarter note. 960 divides evenly by the note values of a line:
// 2, 3, 4, 5 and 6 to the quarter.
const Quarter Beat = 960

// Quarters returns the time in quarter notes.
func (b Beat) Quarters() float64 { return float64(b) / float64(Quarter) }

// String returns the time in quarter notes: "0.5".
func (b Beat) String() string { return fmt.Sprint(b.Quarters()) }

// FloorDiv divides and rounds down, so that bars before the first bar line get
// the numbers −1, −2 and so on.
func FloorDiv(b, by Beat) Beat {
	q := b / by
	if b%by < 0 {
		q--
	}
	return q
}

// GCD returns the greatest common divisor of two lengths; that of a and 0 is a.
func GCD(a, b Beat) Beat {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
