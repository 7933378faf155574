package pitch

import (
	"slices"
	"strings"
	"unicode"
)

// Relative reads a scale superimposed on home: a full scale ("Ab minor
// pentatonic"), an interval ("semitone up", the same type as home) or an
// interval and a type ("minor third up major pentatonic").
//
// A root given by interval takes the interval's own letter, unless the scale
// would need double accidentals that another common name of the root avoids. A
// tritone is the augmented fourth or the diminished fifth, whichever gives the
// scale fewer accidentals; in a tie, the one with flats. Home's own root stays as
// the player typed it.
//
// A text that begins with a capital note letter and reads as a scale is a scale:
// "A whole tone" is a scale on A, "a whole tone" an interval.
func Relative(home Scale, text string) (Scale, error) {
	trimmed := strings.TrimSpace(text)
	if trimmed != "" && unicode.IsUpper(rune(trimmed[0])) {
		if s, err := ParseScale(trimmed); err == nil {
			return s, nil
		}
	}
	if interval, rest, ok := cutInterval(strings.Fields(trimmed)); ok {
		t, err := home.Type, error(nil)
		if len(rest) > 0 {
			t, err = parseType(strings.Join(rest, " "))
		}
		if err == nil {
			return NewScale(rootByInterval(home, interval, t), t), nil
		}
	}
	if s, err := ParseScale(trimmed); err == nil {
		return s, nil
	}
	return Scale{}, relativeError(home, text)
}

// relativeError returns what a superimposed scale may be, and the nearest one.
func relativeError(home Scale, text string) error {
	e := &InputError{
		What: "superimposed scale", Value: text,
		Want: "an interval such as semitone up or tritone, an interval and a scale type, or a scale such as Ab minor pentatonic",
	}
	trimmed := strings.TrimSpace(text)
	if t, ok := findType(trimmed); ok {
		e.Nearest = NewScale(home.Root, t).Name()
		return e
	}
	if interval, rest, ok := cutInterval(strings.Fields(trimmed)); ok {
		if t := nearestType(strings.Join(rest, " ")); t != "" {
			_, words, _ := strings.Cut(interval.Words(), " ")
			e.Nearest = words + " " + t
		}
		return e
	}
	e.Nearest = nearestInterval(trimmed)
	if e.Nearest == "" {
		e.Nearest = nearestScale(trimmed)
	}
	return e
}

// rootByInterval returns the root at an interval from home's, spelled for a scale
// of type t.
func rootByInterval(home Scale, i Interval, t Type) Name {
	root := i.From(home.Root)
	if i.AnyLetter {
		other := i
		other.Steps++ // a rising fourth becomes a fifth
		if i.Steps < 0 {
			other.Steps = i.Steps - 1
		}
		fourth, fifth := NewScale(root, t), NewScale(other.From(home.Root), t)
		fewer := fifth.accidentalCount() - fourth.accidentalCount()
		if fewer < 0 || fewer == 0 && fifth.accidentalSum() < fourth.accidentalSum() {
			root = fifth.Root
		}
	}
	if root == home.Root {
		return root
	}
	best, fewest := root, doublesOn(root, t)
	for _, other := range commonNames(root.Class()) {
		if doubles := doublesOn(other, t); doubles < fewest {
			best, fewest = other, doubles
		}
	}
	return best
}

// doublesOn counts the double accidentals that a scale of type t needs on a root.
// On a root that is hardly ever used, such as F♭, those that other letters avoid
// count too: E minor blues is easier to read than F♭ minor blues.
func doublesOn(root Name, t Type) int {
	if !slices.Contains(commonNames(root.Class()), root) {
		return lettered(root, t).doubles()
	}
	return NewScale(root, t).doubles()
}

// commonNames returns the names of a pitch class as a root: the natural, or the
// sharp and the flat of a black key.
func commonNames(class int) []Name {
	var names []Name
	for letter := C; letter <= B; letter++ {
		switch letter.Class() {
		case class:
			return []Name{{Letter: letter}}
		case mod12(class - 1):
			names = append(names, Name{Letter: letter, Accidental: 1})
		case mod12(class + 1):
			names = append(names, Name{Letter: letter, Accidental: -1})
		}
	}
	return names
}
