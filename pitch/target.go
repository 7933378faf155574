package pitch

import (
	"fmt"
	"strconv"
	"strings"
)

// degreeOrdinals are the words for the degrees over a chord; the index is the
// number less 1.
var degreeOrdinals = []string{
	"root", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave",
	"ninth", "tenth", "eleventh", "twelfth", "thirteenth",
}

// ParseDegree reads a degree over a chord: "root", "third", "b7", "#11",
// "ninth", "9th", "flat ninth", "minor third". The widest alteration is two
// sharps or flats.
//
// A bare number, as in "third" or "7", means whichever third or seventh the chord
// has (see [Chord.Target]); "b7" is exactly that degree.
func ParseDegree(s string) (Degree, error) {
	if d, ok := degreeByWord(s); ok {
		return d, nil
	}
	valid := append([]string{"tonic", "flat ninth", "sharp ninth", "sharp eleventh", "flat thirteenth"}, degreeOrdinals...)
	return Degree{}, &InputError{
		What: "degree", Value: s,
		Want:    "a degree of the chord such as root, third, fifth, seventh, ninth, b7 or #11",
		Nearest: Nearest(strings.TrimPrefix(plainWords(s), "the "), valid),
	}
}

// ParseDegrees reads degrees with commas, spaces, "and" or "or" between them, "third
// b7" or "root, third or fifth", each with the words that [ParseDegree] reads it by.
func ParseDegrees(s string) (words []string, degrees []Degree, err error) {
	for _, part := range strings.Split(s, ",") {
		rest := strings.Fields(part)
		for first := true; first || len(rest) > 0; first = false {
			if len(rest) > 1 && !first && (rest[0] == "or" || rest[0] == "and") {
				rest = rest[1:]
			}
			if len(rest) > 1 && rest[0] == "the" {
				rest = rest[1:]
			}
			size := min(3, len(rest)) // "double flat seventh"
			for size > 0 {
				if _, ok := degreeByWord(strings.Join(rest[:size], " ")); ok {
					break
				}
				size--
			}
			word := strings.Join(rest[:size], " ")
			d, err := ParseDegree(word)
			if err != nil {
				_, err = ParseDegree(strings.Join(rest, " "))
				return nil, nil, err
			}
			words, degrees, rest = append(words, word), append(degrees, d), rest[size:]
		}
	}
	return words, degrees, nil
}

func degreeByWord(s string) (Degree, bool) {
	words := strings.Fields(strings.TrimPrefix(plainWords(s), "the "))
	if len(words) == 0 {
		return Degree{}, false
	}
	last := words[len(words)-1]
	if len(words) == 1 || strings.Trim(words[0], "b#") == "" {
		if d, ok := plainDegree(strings.Join(words, "")); ok {
			return d, true
		}
	}
	d, ok := numbered(last)
	if !ok {
		return Degree{}, false
	}
	switch strings.Join(words[:len(words)-1], " ") {
	case "":
	case "flat":
		d.Alter = -1
	case "sharp":
		d.Alter = 1
	case "double flat":
		d.Alter = -2
	case "double sharp":
		d.Alter = 2
	case "minor":
		d.Alter = -1
		ok = !perfect(d.Number - 1)
	case "augmented":
		d.Alter = 1
	case "diminished":
		d.Alter = -1
		if !perfect(d.Number - 1) {
			d.Alter = -2
		}
	default:
		return Degree{}, false
	}
	return d, ok
}

// numbered reads "root", "third", "3rd" or "3" as a bare degree.
func numbered(word string) (Degree, bool) {
	if word == "tonic" || word == "root" {
		return Degree{Number: 1}, true
	}
	steps, ok := ordinalSteps(word)
	return Degree{Number: steps + 1}, ok && steps > 0 && steps < highestDegree
}

// Words returns the degree as a player says it: "root", "third", "flat
// seventh", "sharp eleventh". [ParseDegree] reads it back.
func (d Degree) Words() string {
	ordinal := strconv.Itoa(d.Number) + "th"
	if d.Number >= 1 && d.Number <= len(degreeOrdinals) {
		ordinal = degreeOrdinals[d.Number-1]
	}
	switch d.Alter {
	case 0:
		return ordinal
	case -1:
		return "flat " + ordinal
	case 1:
		return "sharp " + ordinal
	case -2:
		return "double flat " + ordinal
	case 2:
		return "double sharp " + ordinal
	}
	return fmt.Sprintf("%s altered by %d", ordinal, d.Alter)
}

// resolve returns the degree that a player means by d over the chord. An altered
// degree is itself. A bare number is the chord's own degree with that number, or
// an octave away (over Gm7 "third" and "tenth" are ♭3). If the chord has none, it
// is the major scale's, but ♭7 for the seventh over a minor or diminished triad.
func (c Chord) resolve(d Degree) Degree {
	if d.Alter != 0 {
		return d
	}
	for _, number := range []int{d.Number, d.Number - 7, d.Number + 7} {
		if own, ok := c.own(number); ok {
			own.Number = d.Number
			return own
		}
	}
	if d.Number == 7 && c.has(3, -1) && c.openSeventh() {
		d.Alter = -1
	}
	return d
}

// Target returns the note to land on for a degree over the chord, spelled from
// its root: over Gm7 the third is B♭ and the seventh F.
func (c Chord) Target(d Degree) Name { return c.resolve(d).Above(c.Root) }
