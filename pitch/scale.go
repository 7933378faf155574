package pitch

import "strings"

// A Scale is a type on a root. Notes are spelled from the root, one for each
// degree, in rising order.
type Scale struct {
	Root  Name
	Type  Type
	Notes []Name
}

// NewScale returns the type on the root as typed, spelled as players read it.
//
// Seven-note scales and the plain pentatonics have one letter for each degree,
// with double accidentals if the root needs them. Every other type keeps the
// letters of its degrees except where that would take a double accidental: E♭
// minor blues has A, not B𝄫. The plainest name replaces it, a flat after a flat
// root.
func NewScale(root Name, t Type) Scale {
	s := lettered(root, t)
	if t.oneLetterEach() {
		return s
	}
	for i, n := range s.Notes[1:] {
		if abs(n.Accidental) > 1 {
			s.Notes[i+1] = PlainName(n.Class(), root.Accidental < 0)
		}
	}
	return s
}

// lettered returns the type on the root with the letters of its degrees.
func lettered(root Name, t Type) Scale {
	s := Scale{Root: root, Type: t, Notes: make([]Name, len(t.Degrees))}
	for i, d := range t.Degrees {
		s.Notes[i] = d.Above(root)
	}
	return s
}

// ParseScale reads a root and a type, "G minor pentatonic", or a root and
// degrees, "F# 1 b3 4 #5 b7". The root stays as typed.
func ParseScale(s string) (Scale, error) {
	trimmed := strings.TrimSpace(s)
	root, rest, ok := cutName(trimmed)
	want := "a root and a scale type, such as G minor pentatonic, or a root and 3 to 12 rising degrees from 1, such as F# 1 b3 4 #5 b7"
	if !ok || rest == "" {
		return Scale{}, &InputError{What: "scale", Value: s, Want: want, Nearest: nearestScale(trimmed)}
	}
	t, err := parseType(rest)
	if err != nil {
		return Scale{}, &InputError{What: "scale", Value: s, Want: want, Nearest: nearestScale(trimmed)}
	}
	return NewScale(root, t), nil
}

// nearestScale returns a scale that may have been meant: the same root with the
// nearest type.
func nearestScale(typed string) string {
	root, rest, ok := cutName(typed)
	if !ok {
		// H is the German name of B.
		if len(typed) < 2 || typed[0]&^0x20 != 'H' || typed[1] != ' ' {
			return ""
		}
		root, rest = Name{Letter: B}, typed[1:]
	}
	if words := degreeWords(rest); len(words) == 0 || words[0] == "1" {
		return ""
	}
	if t := nearestType(rest); t != "" {
		return root.String() + " " + t
	}
	return ""
}

// Name returns root and type in plain letters: "Ab minor pentatonic".
func (s Scale) Name() string { return s.Root.String() + " " + s.Type.Name }

// Symbol returns root and type with music signs: "A♭ minor pentatonic".
func (s Scale) Symbol() string { return English.Scale(s) }

// Named returns the scale's own name for a pitch class, and whether the class
// is in the scale.
func (s Scale) Named(class int) (Name, bool) {
	for _, n := range s.Notes {
		if n.Class() == class {
			return n, true
		}
	}
	return Name{}, false
}

// accidentalCount counts the sharps and flats of the scale; a double counts as
// two.
func (s Scale) accidentalCount() int {
	count := 0
	for _, n := range s.Notes {
		count += abs(n.Accidental)
	}
	return count
}

// accidentalSum is positive for a scale of sharps, negative for one of flats.
func (s Scale) accidentalSum() int {
	sum := 0
	for _, n := range s.Notes {
		sum += n.Accidental
	}
	return sum
}

// doubles counts the notes with a double accidental or more.
func (s Scale) doubles() int {
	count := 0
	for _, n := range s.Notes {
		if abs(n.Accidental) > 1 {
			count++
		}
	}
	return count
}
