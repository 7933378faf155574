package musicxml

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"heddle/pitch"
)

// A harmonyKind is one of MusicXML's kinds of chord.
type harmonyKind struct {
	Name    string // kind-value
	Suffix  string // the common way of writing it after the root
	Degrees string
}

// harmonyKinds lists the kinds that name a chord by its degrees, with the
// degrees that the MusicXML 4.0 definition of kind-value gives them in words.
// The functional ones (Neapolitan, Tristan and such) are left out.
var harmonyKinds = []harmonyKind{
	{"major", "", "1 3 5"},
	{"minor", "m", "1 b3 5"},
	{"augmented", "+", "1 3 #5"},
	{"diminished", "dim", "1 b3 b5"},
	{"dominant", "7", "1 3 5 b7"},
	{"major-seventh", "maj7", "1 3 5 7"},
	{"minor-seventh", "m7", "1 b3 5 b7"},
	{"diminished-seventh", "dim7", "1 b3 b5 bb7"},
	{"augmented-seventh", "7#5", "1 3 #5 b7"},
	{"half-diminished", "m7b5", "1 b3 b5 b7"},
	{"major-minor", "m(maj7)", "1 b3 5 7"},
	{"major-sixth", "6", "1 3 5 6"},
	{"minor-sixth", "m6", "1 b3 5 6"},
	{"dominant-ninth", "9", "1 3 5 b7 9"},
	{"major-ninth", "maj9", "1 3 5 7 9"},
	{"minor-ninth", "m9", "1 b3 5 b7 9"},
	{"dominant-11th", "11", "1 3 5 b7 9 11"},
	{"major-11th", "maj11", "1 3 5 7 9 11"},
	{"minor-11th", "m11", "1 b3 5 b7 9 11"},
	{"dominant-13th", "13", "1 3 5 b7 9 11 13"},
	{"major-13th", "maj13", "1 3 5 7 9 11 13"},
	{"minor-13th", "m13", "1 b3 5 b7 9 11 13"},
	{"suspended-second", "sus2", "1 2 5"},
	{"suspended-fourth", "sus4", "1 4 5"},
	{"power", "5", "1 5"},
}

// A degreeChange is how a chord differs from its kind in one degree.
type degreeChange struct {
	pitch.Degree
	Type string // MusicXML's add, alter or subtract
}

// The cost of a change is how far it takes a chord from its kind.
const (
	omissionCost = 1 // of an 11th, which thirteenth chords usually leave out
	additionCost = 2
	revisionCost = 3 // an altered or missing degree: G7#9 is a seventh with a sharp ninth, not an altered ninth chord
)

func (c degreeChange) cost() int {
	switch {
	case c.Type == "subtract" && c.Number == 11:
		return omissionCost
	case c.Type == "add":
		return additionCost
	}
	return revisionCost
}

// kindOf returns the kind nearest to the degrees of a chord (in a tie, the
// earlier one in the table) and the changes that turn it into the chord.
func kindOf(degrees []pitch.Degree) (harmonyKind, []degreeChange) {
	best := harmonyKind{Name: "other"}
	changes := changesTo([]pitch.Degree{{Number: 1}}, degrees)
	for _, kind := range harmonyKinds {
		if with := changesTo(parseDegrees(kind.Degrees), degrees); changeCost(with) < changeCost(changes) {
			best, changes = kind, with
		}
	}
	return best, changes
}

func changeCost(changes []degreeChange) int {
	sum := 0
	for _, c := range changes {
		sum += c.cost()
	}
	return sum
}

// changesTo returns the changes from the degrees of a kind to the wanted ones,
// by number. A degree in both with different accidentals is altered.
func changesTo(have, want []pitch.Degree) []degreeChange {
	var changes []degreeChange
	left := slices.Clone(have)
	take := func(same func(pitch.Degree) bool) bool {
		i := slices.IndexFunc(left, same)
		if i >= 0 {
			left = slices.Delete(left, i, i+1)
		}
		return i >= 0
	}
	var unmet []pitch.Degree
	for _, d := range want {
		if !take(func(h pitch.Degree) bool { return h == d }) {
			unmet = append(unmet, d)
		}
	}
	for _, d := range unmet {
		if take(func(h pitch.Degree) bool { return h.Number == d.Number }) {
			changes = append(changes, degreeChange{d, "alter"})
		} else {
			changes = append(changes, degreeChange{d, "add"})
		}
	}
	for _, h := range left {
		changes = append(changes, degreeChange{h, "subtract"})
	}
	slices.SortStableFunc(changes, func(a, b degreeChange) int { return cmp.Compare(a.Number, b.Number) })
	return changes
}

// parseDegrees reads the degrees of the table above.
func parseDegrees(s string) []pitch.Degree {
	var degrees []pitch.Degree
	for _, word := range strings.Fields(s) {
		number := strings.TrimLeft(word, "b#")
		signs := word[:len(word)-len(number)]
		n, err := strconv.Atoi(number)
		if err != nil {
			panic("musicxml: degree " + word + " in the table of kinds")
		}
		degrees = append(degrees, pitch.Degree{Number: n, Alter: strings.Count(signs, "#") - strings.Count(signs, "b")})
	}
	return degrees
}

// naturalAlter returns the alteration that MusicXML counts a change from: for an
// addition, that of a dominant chord's degree, whose seventh is minor; for the
// others, that of the kind's own degree.
func naturalAlter(kind harmonyKind, change degreeChange) int {
	for _, d := range parseDegrees(kind.Degrees) {
		if change.Type != "add" && d.Number == change.Number {
			return d.Alter
		}
	}
	if change.Type == "add" && change.Number == 7 {
		return -1
	}
	return 0
}

// harmony writes a chord symbol, offset beats after the current position. Its
// text is the symbol as typed; the degrees are for programs and not printed.
func (m *markup) harmony(c pitch.Chord, offset int) {
	kind, changes := kindOf(c.Degrees)
	m.start("harmony")
	m.start("root")
	m.nameSteps("root", c.Root)
	m.end()
	m.text("kind", kind.Name, "text", suffixOf(c))
	if c.Bass != c.Root {
		m.start("bass")
		m.nameSteps("bass", c.Bass)
		m.end()
	}
	for _, change := range changes {
		m.start("degree", "print-object", "no")
		m.number("degree-value", change.Number)
		alter := change.Alter - naturalAlter(kind, change)
		if change.Type == "subtract" {
			alter = 0
		}
		m.number("degree-alter", alter)
		m.text("degree-type", change.Type)
		m.end()
	}
	if offset != 0 {
		m.number("offset", offset)
	}
	m.number("staff", 1)
	m.end()
}

// nameSteps writes a note name as the two elements prefix-step, prefix-alter.
func (m *markup) nameSteps(prefix string, n pitch.Name) {
	m.text(prefix+"-step", n.Letter.String())
	if n.Accidental != 0 {
		m.number(prefix+"-alter", n.Accidental)
	}
}

// suffixOf returns what follows the root in a chord symbol, without the bass: as
// typed or, if the root was typed in another naming, in the plain form.
func suffixOf(c pitch.Chord) string {
	suffix, ok := strings.CutPrefix(c.Symbol, c.Root.String())
	if !ok {
		if suffix, ok = strings.CutPrefix(c.Symbol, c.Root.Symbol()); !ok {
			suffix = strings.TrimPrefix(c.Name(), c.Root.String())
		}
	}
	if i := strings.LastIndexByte(suffix, '/'); i >= 0 && c.Bass != c.Root {
		suffix = suffix[:i]
	}
	return suffix
}
