package pitch

import (
	"slices"
	"strings"
	"sync"
)

// A Type is a kind of scale: its name and its degrees, one for each note, rising
// from the root within an octave.
type Type struct {
	Name    string
	Aliases []string
	Degrees []Degree
}

// The fewest and most notes of a scale given by degrees: fewer than three make
// no line, and there are only twelve.
const (
	fewestDegrees = 3
	mostDegrees   = 12
)

// oneLetterEach reports whether a scale of the type keeps one letter for each
// degree on every root: seven notes on seven letters, and the plain pentatonics,
// which are the five modes of 5-35. A typed set is never a plain pentatonic.
func (t Type) oneLetterEach() bool {
	letters := 0
	for i, d := range t.Degrees {
		if i == 0 || d.Number != t.Degrees[i-1].Number {
			letters++
		}
	}
	return letters == len(t.Degrees) && (letters == 7 ||
		letters == 5 && setClasses()[maskOfDegrees(t.Degrees)].forte == "5-35" && !strings.HasPrefix(t.Name, "1 "))
}

// blue reports whether a type is a blues scale or the minor pentatonic, the homes
// of blue notes (common practice).
func (t Type) blue() bool {
	return t.Name == "minor pentatonic" || strings.HasSuffix(t.Name, " blues")
}

// A typeIndex finds scale types by name, by degrees and by their notes.
type typeIndex struct {
	types     []Type
	byName    map[string]int // name, alias or degrees, as plainWords spells them
	byMask    map[mask][]int // pitch classes above the root
	spellings []string       // names, then aliases
}

// scaleTypes returns the table, which is read once and never changed.
var scaleTypes = sync.OnceValue(func() typeIndex {
	x := typeIndex{byName: map[string]int{}, byMask: map[mask][]int{}}
	var aliases []string
	for i, row := range typeRows {
		t := Type{Name: row.name, Aliases: row.aliases}
		for _, word := range strings.Fields(row.degrees) {
			d, ok := scaleDegree(word)
			if !ok {
				panic("scale type " + row.name + ": bad degree " + word)
			}
			t.Degrees = append(t.Degrees, d)
		}
		x.types = append(x.types, t)
		x.byName[row.degrees] = i
		m := maskOfDegrees(t.Degrees)
		x.byMask[m] = append(x.byMask[m], i)
		x.byName[plainWords(row.name)] = i
		for _, alias := range row.aliases {
			x.byName[plainWords(alias)] = i
		}
		x.spellings = append(x.spellings, row.name)
		aliases = append(aliases, row.aliases...)
	}
	x.spellings = append(x.spellings, aliases...)
	return x
})

// Symbol returns the name with music signs: "dorian ♭2".
func (t Type) Symbol() string { return Signs(t.Name) }

// clone returns a type that shares nothing with the table.
func (t Type) clone() Type {
	t.Aliases, t.Degrees = slices.Clone(t.Aliases), slices.Clone(t.Degrees)
	return t
}

// Types returns a copy of every scale type that has a name, by number of notes.
func Types() []Type {
	var types []Type
	for _, t := range scaleTypes().types {
		types = append(types, t.clone())
	}
	return types
}

// FindType finds a scale type by its name or an alias. Case, hyphens and a final
// "scale" do not matter.
func FindType(name string) (Type, error) {
	if t, ok := findType(name); ok {
		return t, nil
	}
	return Type{}, &InputError{
		What: "scale type", Value: name,
		Want:    "a name such as minor pentatonic, dorian or whole tone, or degrees such as 1 b3 4 #5 b7",
		Nearest: nearestType(name),
	}
}

func findType(name string) (Type, bool) {
	x := scaleTypes()
	// A capital M is major, except at the beginning of a word.
	if rest, found := strings.CutPrefix(strings.TrimSpace(name), "M"); found && !startsLower(rest) {
		name = "maj" + rest
	}
	plain := plainWords(name)
	short := strings.TrimSuffix(plain, " scale")
	for _, words := range []string{plain, short, longWords(short)} {
		if i, ok := x.byName[words]; ok {
			return x.types[i].clone(), true
		}
	}
	return Type{}, false
}

func startsLower(s string) bool { return s != "" && s[0] >= 'a' && s[0] <= 'z' }

// shortWords are the usual short forms in names of scales.
var shortWords = map[string]string{
	"m": "minor", "mi": "minor", "min": "minor", "ma": "major", "maj": "major", "dom": "dominant",
	"dim": "diminished", "aug": "augmented", "pent": "pentatonic", "penta": "pentatonic", "arp": "arpeggio",
	"mel": "melodic", "harm": "harmonic", "mixo": "mixolydian",
}

// longWords writes short forms out.
func longWords(plain string) string {
	words := strings.Fields(plain)
	for i, w := range words {
		if long := shortWords[w]; long != "" {
			words[i] = long
		}
	}
	return strings.Join(words, " ")
}

// nearestType returns the name or alias closest to what was typed.
func nearestType(typed string) string {
	return Nearest(strings.TrimSuffix(plainWords(typed), " scale"), scaleTypes().spellings)
}

// parseType reads a type's name or its degrees.
func parseType(s string) (Type, error) {
	if words := degreeWords(s); len(words) > 0 && words[0] == "1" {
		return parseFormula(s, words)
	}
	return FindType(s)
}

// parseFormula reads the degrees of a scale, which must rise from 1 within an
// octave. A scale with a name gets it.
func parseFormula(s string, words []string) (Type, error) {
	bad := &InputError{What: "scale degrees", Value: s, Want: "3 to 12 degrees rising from 1, each 1 to 7 with # or b, such as 1 b3 4 5 b7"}
	if len(words) < fewestDegrees || len(words) > mostDegrees {
		return Type{}, bad
	}
	t := Type{}
	for i, word := range words {
		d, ok := scaleDegree(word)
		if !ok || d.Semitones() > 11 {
			return Type{}, bad
		}
		if i > 0 {
			last := t.Degrees[i-1]
			if d.Semitones() <= last.Semitones() || d.Number < last.Number {
				return Type{}, bad
			}
		}
		t.Degrees = append(t.Degrees, d)
	}
	t.Name = formula(t.Degrees)
	if known, ok := findType(t.Name); ok {
		return known, nil
	}
	return t, nil
}

// degreeWords splits "1 b3, 4 ♯5 ♭7" into plain degrees.
func degreeWords(s string) []string {
	return strings.FieldsFunc(plainSigns(s), func(r rune) bool { return r == ' ' || r == ',' || r == '\t' })
}

// scaleDegree reads a degree of a scale: up to two # or b, then 1 to 7.
func scaleDegree(word string) (Degree, bool) {
	d, ok := plainDegree(word)
	return d, ok && d.Number <= 7
}

// formula returns degrees as text: "1 b3 4 5 b7".
func formula(degrees []Degree) string {
	words := make([]string, len(degrees))
	for i, d := range degrees {
		words[i] = d.String()
	}
	return strings.Join(words, " ")
}

// plainWords returns a name in the spelling that is used for look-ups.
func plainWords(s string) string {
	s = strings.ReplaceAll(strings.ToLower(plainSigns(s)), "-", " ")
	return strings.Join(strings.Fields(s), " ")
}

// signLetters turns music signs into plain letters.
var signLetters = strings.NewReplacer("♭", "b", "♯", "#", "𝄫", "bb", "𝄪", "##", "♮", "")

// plainSigns turns music signs into plain letters.
func plainSigns(s string) string { return signLetters.Replace(s) }
