package line

import (
	"math"
	"strconv"

	"heddle/pitch"
)

// A Beat is a point or a length of time in 1/960 of a quarter note.
type Beat int

// Quarter is one quarter note. 960 parts divide evenly into every value of a
// line: 2, 3, 4, 5 and 6 to the quarter.
const Quarter Beat = 960

// Quarters returns the time in quarter notes.
func (b Beat) Quarters() float64 { return float64(b) / float64(Quarter) }

// BeatOf returns the time nearest to a number of quarter notes from 0 to most.
// The error names the field the number was typed in.
func BeatOf(field string, quarters float64, most Beat) (Beat, error) {
	// The comparison is written so that NaN fails it.
	if !(quarters >= 0 && quarters <= most.Quarters()) {
		return 0, &pitch.InputError{
			What:  field,
			Value: strconv.FormatFloat(quarters, 'g', -1, 64),
			Want:  "quarter notes from 0 to " + strconv.FormatFloat(most.Quarters(), 'g', -1, 64),
		}
	}
	return Beat(math.Round(quarters * float64(Quarter))), nil
}

// String returns the time in quarter notes: "0.5".
func (b Beat) String() string { return strconv.FormatFloat(b.Quarters(), 'g', -1, 64) }

// floorDiv divides and rounds down, so that bars before the first bar line
// count on backwards.
func floorDiv(b, by Beat) Beat {
	q := b / by
	if b%by < 0 {
		q--
	}
	return q
}
