package pitch

import (
	"cmp"
	"slices"
	"strings"
)

// chordWant is what ParseChord accepts.
const chordWant = "a root and a kind, such as Gm7, G7#9, Gmaj7, Gm7b5, G13sus4 or G/B"

// longestSymbol is the longest chord symbol that is read, in bytes: three times
// the longest in use.
const longestSymbol = 64

// ParseChord reads a chord symbol in the common ways of writing it: root,
// quality (m, -, mi, min; maj, ma, M, Δ; dim, °, o; ø; aug, +), extension (5,
// 6, 6/9, 7, 9, 11, 13), then any of sus, add, no, alt and altered tensions,
// with or without brackets, and a slash bass.
//
// Three readings are common practice: a thirteenth includes the ninth, and the
// eleventh only if the chord is minor; a dominant eleventh has no third; an
// altered dominant has both altered ninths, ♯11 and ♭13, but no fifth or natural
// ninth.
func ParseChord(symbol string) (Chord, error) {
	if c, ok := parseChord(symbol); ok {
		return c, nil
	}
	return Chord{}, &InputError{What: "chord", Value: symbol, Want: chordWant, Nearest: nearestChord(symbol)}
}

func parseChord(symbol string) (Chord, bool) {
	if len(symbol) > longestSymbol {
		return Chord{}, false
	}
	root, rest, ok := cutName(strings.TrimSpace(symbol))
	if !ok {
		return Chord{}, false
	}
	c := Chord{Symbol: symbol, Root: root, Bass: root}
	if slash := strings.LastIndexByte(rest, '/'); slash >= 0 {
		if bass, tail, ok := cutName(strings.TrimSpace(rest[slash+1:])); ok && tail == "" {
			c.Bass, rest = bass, rest[:slash]
		}
	}
	c.Degrees, ok = parseKind(plainKind(rest))
	return c, ok
}

// nearestChord returns the chord on the same root whose kind is closest to what
// was typed.
func nearestChord(symbol string) string {
	trimmed := strings.TrimSpace(symbol)
	root, rest, ok := cutName(trimmed)
	if !ok {
		// H is the German name of B.
		if tail, german := strings.CutPrefix(trimmed, "H"); german {
			if c, ok := parseChord("B" + tail); ok {
				return c.Name()
			}
		}
		return ""
	}
	if kind := Nearest(plainKind(rest), commonKinds); kind != "" {
		return root.String() + kind
	}
	return ""
}

// commonKinds lists the kinds of chord that may have been meant.
var commonKinds = []string{
	"m7", "maj7", "m7b5", "dim7", "7sus4", "7#9", "7b9", "7alt", "7#11", "7b13", "m9", "m11", "m13", "m6",
	"maj9", "maj13", "maj7#11", "9", "13", "13sus4", "9sus4", "6/9", "m(maj7)", "add9", "madd9", "min7", "major7", "minor7",
	"sus4", "sus2", "aug", "dim", "7#5", "7b5", "9#11", "13b9",
}

// kindLetters turns the different signs for one thing into one.
var kindLetters = strings.NewReplacer(
	" ", "", "♭", "b", "♯", "#", "△", "Δ", "∆", "Δ", "^", "Δ", "Ø", "ø", "º", "°", "−", "-", "–", "-",
)

// plainKind returns the part of a symbol after its root in plain letters, without
// spaces.
func plainKind(kind string) string { return kindLetters.Replace(kind) }

// qualityWords lists the spellings of each quality, longer ones first. A minus or
// plus may also belong to what follows it (G-5), so each reading is tried.
var qualityWords = []struct {
	word    string
	quality string
}{
	{"major", "maj"}, {"Major", "maj"}, {"maj", "maj"}, {"Maj", "maj"}, {"MAJ", "maj"},
	{"minor", "min"}, {"Minor", "min"}, {"min", "min"}, {"Min", "min"}, {"MIN", "min"},
	{"dim", "dim"}, {"Dim", "dim"}, {"DIM", "dim"}, {"aug", "aug"}, {"Aug", "aug"}, {"AUG", "aug"}, {"dom", ""},
	{"ma", "maj"}, {"Ma", "maj"}, {"MA", "maj"}, {"mi", "min"}, {"Mi", "min"}, {"MI", "min"},
	{"M", "maj"}, {"m", "min"}, {"-", "min"}, {"Δ", "Δ"}, {"°", "dim"}, {"o", "dim"}, {"ø", "ø"}, {"+", "aug"},
	{"", ""},
}

// extensionWords lists the numbers that may follow a quality, longer first.
var extensionWords = []string{"6/9", "69", "13", "11", "9", "7", "6", "5", "4", "2", ""}

// kindStart is the chord for a quality and an extension. Pairs that are not here
// are not used.
var kindStart = map[string]string{
	"": "1 3 5", "5": "1 5", "6": "1 3 5 6", "6/9": "1 3 5 6 9", "2": "1 3 5 9", "4": "1 4 5",
	"7": "1 3 5 b7", "9": "1 3 5 b7 9", "11": "1 5 b7 9 11", "13": "1 3 5 b7 9 13",

	"maj": "1 3 5", "maj6": "1 3 5 6", "maj6/9": "1 3 5 6 9",
	"maj7": "1 3 5 7", "maj9": "1 3 5 7 9", "maj11": "1 3 5 7 9 11", "maj13": "1 3 5 7 9 13",
	"Δ": "1 3 5 7", "Δ7": "1 3 5 7", "Δ9": "1 3 5 7 9", "Δ11": "1 3 5 7 9 11", "Δ13": "1 3 5 7 9 13",

	"min": "1 b3 5", "min6": "1 b3 5 6", "min6/9": "1 b3 5 6 9",
	"min7": "1 b3 5 b7", "min9": "1 b3 5 b7 9", "min11": "1 b3 5 b7 9 11", "min13": "1 b3 5 b7 9 11 13",

	"dim": "1 b3 b5", "dim7": "1 b3 b5 bb7", "dim9": "1 b3 b5 bb7 9", "dim11": "1 b3 b5 bb7 9 11",
	"ø": "1 b3 b5 b7", "ø7": "1 b3 b5 b7", "ø9": "1 b3 b5 b7 9", "ø11": "1 b3 b5 b7 9 11",
	"aug": "1 3 #5", "aug7": "1 3 #5 b7", "aug9": "1 3 #5 b7 9",
}

// parseKind reads the part of a symbol after its root.
func parseKind(kind string) ([]Degree, bool) {
	for _, q := range qualityWords {
		rest, found := strings.CutPrefix(kind, q.word)
		if !found {
			continue
		}
		for _, extension := range extensionWords {
			tail, found := strings.CutPrefix(rest, extension)
			if extension == "69" {
				extension = "6/9"
			}
			start, known := kindStart[q.quality+extension]
			if !found || !known {
				continue
			}
			d := draft{quality: q.quality, extension: extension, degrees: wordDegrees(start)}
			if d.modify(tail) {
				slices.SortFunc(d.degrees, func(a, b Degree) int {
					return cmp.Or(a.Number-b.Number, a.Alter-b.Alter)
				})
				return d.degrees, true
			}
		}
	}
	return nil, false
}

// mustDegree reads a degree from a table.
func mustDegree(word string) Degree {
	d, ok := plainDegree(word)
	if !ok {
		panic("bad degree in table: " + word)
	}
	return d
}
