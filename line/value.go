package line

import (
	"slices"
	"strings"
)

// A Value is the note value of a line.
type Value string

// The values, each with its length as a Beat given by Length.
const (
	QuarterNote      Value = "quarter"
	Eighth           Value = "eighth"
	EighthTriplet    Value = "eighth-triplet"
	Sixteenth        Value = "sixteenth"
	SixteenthTriplet Value = "sixteenth-triplet"
	Quintuplet       Value = "quintuplet"
)

// values lists the values with the number of notes in a quarter note, longest value
// first.
var values = []struct {
	value   Value
	to      Beat
	aliases []string
}{
	{QuarterNote, 1, []string{"quarters", "1/4"}},
	{Eighth, 2, []string{"eighths", "1/8"}},
	{EighthTriplet, 3, []string{"eighth-triplets", "eighth triplet", "eighth triplets", "triplet", "triplets"}},
	{Sixteenth, 4, []string{"sixteenths", "1/16"}},
	{Quintuplet, 5, []string{"quintuplets"}},
	{SixteenthTriplet, 6, []string{"sixteenth-triplets", "sixteenth triplet", "sixteenth triplets", "sextuplet", "sextuplets"}},
}

// Length returns how long one note of the value lasts: a quarter 960, an
// eighth 480, an eighth triplet 320, a sixteenth 240, a quintuplet (five to
// the quarter) 192, a sixteenth triplet 160; 0 for a value that is none of
// these.
func (v Value) Length() Beat {
	for _, known := range values {
		if known.value == v {
			return Quarter / known.to
		}
	}
	return 0
}

// ParseValue reads a note value, in the singular or the plural.
func ParseValue(s string) (Value, error) {
	word := foldWord(s)
	for _, v := range values {
		if word == string(v.value) || slices.Contains(v.aliases, word) {
			return v.value, nil
		}
	}
	return "", valueError(s)
}

func valueError(s string) error {
	names := make([]string, len(values))
	for i, v := range values {
		names[i] = string(v.value)
	}
	return wordError("value", s, names)
}

// foldWord returns a typed word in lower case with single spaces.
func foldWord(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
