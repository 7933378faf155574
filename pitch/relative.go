package pitch

import (
	"slices"
	"strings"
	"unicode"
)

// A Relation is a scale superimposed on home, as the player gave it.
type Relation struct {
	Scale Scale

	// Given is the player's wording in the one spelling that [Relative] reads back:
	// "semitone down", "tritone", "b5 major pentatonic", or a scale's name.
	Given string

	// Away says where the root lies from home's, "a semitone down" or "on the ♭5". It
	// is empty for a scale given by its own root.
	Away string
}

// Relative reads a scale superimposed on home:
//
//   - a scale, "Ab minor pentatonic", or a bare root, "Ab": the same type as home;
//   - an interval from home's root, "semitone up", alone or with a type, "minor third
//     up major pentatonic";
//   - a degree above home's root, "b5", alone or with a type.
//
// A root given by interval or degree takes its own letter, unless the scale
// would need double accidentals that another common name of the root avoids. A
// tritone is the augmented fourth or the diminished fifth, whichever gives the
// scale fewer accidentals; in a tie, the one with flats. Home's own root stays as
// the player typed it.
//
// A text that begins with a capital note letter and reads as a scale is a scale:
// "A whole tone" is a scale on A, "a whole tone" an interval.
func Relative(home Scale, text string) (Relation, error) {
	trimmed := strings.TrimSpace(text)
	if trimmed != "" && unicode.IsUpper(rune(trimmed[0])) {
		if s, ok := ownRoot(home, trimmed); ok {
			return Relation{Scale: s, Given: s.Name()}, nil
		}
	}
	words := strings.Fields(trimmed)
	if d, rest, ok := cutDegree(words); ok {
		i := Interval{Steps: d.Number - 1, Semitones: d.Semitones()}
		if r, ok := relation(home, i, rest, d.String(), "on the "+d.Symbol()); ok {
			return r, nil
		}
	}
	if i, rest, ok := cutInterval(words); ok {
		if r, ok := relation(home, i, rest, i.plain(), i.Words()); ok {
			return r, nil
		}
	}
	if s, ok := ownRoot(home, trimmed); ok {
		return Relation{Scale: s, Given: s.Name()}, nil
	}
	return Relation{}, relativeError(home, text)
}

// ownRoot reads a scale, or the root of one of home's type.
func ownRoot(home Scale, text string) (Scale, bool) {
	if s, err := ParseScale(text); err == nil {
		return s, true
	}
	root, err := ParseName(text)
	return NewScale(root, home.Type), err == nil
}

// relation returns the scale at an interval from home, of the type in rest or of
// home's own.
func relation(home Scale, i Interval, rest []string, given, away string) (Relation, bool) {
	t := home.Type
	if len(rest) > 0 {
		var err error
		if t, err = parseType(strings.Join(rest, " ")); err != nil {
			return Relation{}, false
		}
		given += " " + t.Name
	}
	return Relation{NewScale(rootByInterval(home, i, t), t), given, away}, true
}

// cutDegree reads a degree above home's root at the beginning of words: "b5", "♯11".
func cutDegree(words []string) (d Degree, rest []string, ok bool) {
	if len(words) == 0 {
		return Degree{}, nil, false
	}
	d, ok = plainDegree(plainSigns(words[0]))
	switch d.Number {
	case 1, 8, 10, 12: // never called by a number
		ok = false
	}
	return d, words[1:], ok
}

// relativeError returns what a superimposed scale may be, and the nearest one.
func relativeError(home Scale, text string) error {
	e := &InputError{
		What: "superimposed scale", Value: text,
		Want: "an interval such as semitone up or tritone, or a degree such as b5, with or without a scale type; or a scale such as Ab minor pentatonic",
	}
	trimmed := strings.TrimSpace(text)
	if t, ok := findType(trimmed); ok {
		e.Nearest = NewScale(home.Root, t).Name()
		return e
	}
	words := strings.Fields(trimmed)
	interval, rest, ok := cutInterval(words)
	given := interval.plain()
	if !ok {
		var d Degree
		d, rest, ok = cutDegree(words)
		given = d.String()
	}
	if ok {
		if t := nearestType(strings.Join(rest, " ")); t != "" {
			e.Nearest = given + " " + t
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
// count too: E minor blues is easier to read than F♭ minor blues. So do those of a
// triad or a seventh arpeggio, since a chord is read by its letters: E♭ G B♭, not
// D♯ G A♯.
func doublesOn(root Name, t Type) int {
	if len(t.Degrees) <= 4 || !slices.Contains(commonNames(root.Class()), root) {
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
