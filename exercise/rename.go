package exercise

import (
	"regexp"
	"strings"

	"heddle/pitch"
)

// A spec has note names in English, whatever the player reads, so that an
// address means the same to everybody. A form shows and takes the player's own
// names: in German, H where the spec has B, and B where it has Bb.

// noteNames says where the note names are in a field's value.
var noteNames = map[string]func(value string, turn func(string) string) string{
	"home": scaleRoots, "superimpose": scaleRoots, "chord": chordRoots, "changes": changesRoots, "start": pitches, "tuning": pitches,
}

// Rename writes the note names in a value of the field in another naming. It
// leaves what it can't read as it is.
func (f Field) Rename(value string, from, to pitch.Naming) string {
	names := noteNames[f.Name]
	if names == nil || from == to {
		return value
	}
	return names(value, func(name string) string {
		n, err := from.Parse(name)
		if err != nil {
			return ""
		}
		return to.Plain(n)
	})
}

// scaleRoots turns the root of a scale, or of each where they change.
func scaleRoots(value string, turn func(string) string) string {
	scales := splitBars(value)
	if len(scales) == 1 {
		return scaleRoot(value, turn)
	}
	for i, scale := range scales {
		scales[i] = scaleRoot(scale, turn)
	}
	return strings.Join(scales, " | ")
}

// scaleRoot turns the root of a scale, or a root alone. It leaves a distance such as
// "a semitone up" or "b5" as it is.
func scaleRoot(value string, turn func(string) string) string {
	for end := len(value); end > 0; end-- {
		rest := value[end:]
		if rest != "" && !strings.ContainsRune(" mM", rune(rest[0])) || value[end-1] == ' ' || value[:end] == "a" {
			continue
		}
		turned := turn(value[:end])
		if turned == "" {
			continue
		}
		if _, err := pitch.ParseScale("C" + rest); err == nil || rest == "" {
			return turned + rest
		}
	}
	return value
}

// changesRoots turns the key of a form, or the roots of its chords.
func changesRoots(value string, turn func(string) string) string {
	if name, key, ok := cutForm(value); ok {
		if turned := turn(key); turned != "" {
			key = turned
		}
		return name + " in " + key
	}
	return chordRoots(value, turn)
}

// chordToken is a chord symbol among bar lines, commas and repeat signs.
var chordToken = regexp.MustCompile(`(?:[^\s|%,(]|\([^)]*\))+`)

// chordRoots turns the root and the bass of every chord symbol.
func chordRoots(value string, turn func(string) string) string {
	return chordToken.ReplaceAllStringFunc(value, func(symbol string) string {
		upper, bass, slash := strings.Cut(symbol, "/")
		turned := root(upper, turn)
		if turned == "" {
			return symbol
		}
		if !slash {
			return turned
		}
		if below := turn(bass); below != "" {
			bass = below
		}
		return turned + "/" + bass
	})
}

// root turns the root of a chord symbol: the longest name that it begins with
// and leaves the kind of a chord, so that German "Asus4" is on A and
// "Asm7" on As. It returns nothing where there is none.
func root(symbol string, turn func(string) string) string {
	for end := len(symbol); end > 0; end-- {
		if name := turn(symbol[:end]); name != "" {
			if _, err := pitch.ParseChord("C" + symbol[end:]); err == nil {
				return name + symbol[end:]
			}
		}
	}
	return ""
}

// pitches turns the name before each octave.
func pitches(value string, turn func(string) string) string {
	words := strings.Fields(value)
	for i, word := range words {
		name := strings.TrimRight(word, "-0123456789")
		if turned := turn(name); turned != "" {
			words[i] = turned + word[len(name):]
		}
	}
	return strings.Join(words, " ")
}
