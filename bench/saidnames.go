package bench

import (
	"regexp"
	"strings"

	"heddle/pitch"
)

// The spec says names in English, whatever naming a player reads: an address
// means the same to everybody. The form says and takes them in the player's
// own: in German, H where the spec has B, and B where it has Bb. It tells that
// it does so in saidKey, beside the fields.
const saidKey = "said"

// said is what the form has under saidKey for a naming: nothing in English.
func said(g pitch.Naming) string {
	if g == pitch.English {
		return ""
	}
	return g.String()
}

// saidFields are the fields that hold note names.
var saidFields = map[string]func(string, func(string) string) string{
	"home": firstWord, "superimpose": firstWord, "chord": chordRoots, "changes": chordRoots, "start": pitches, "tuning": pitches,
}

// fromSaid turns the note names of a field's value into the spec's.
func fromSaid(g pitch.Naming, field, value string) string {
	return renamed(g, field, value, g.Parse, pitch.English.Plain)
}

// toSaid turns the note names of a field's value into a naming's.
func toSaid(g pitch.Naming, field, value string) string {
	return renamed(g, field, value, pitch.English.Parse, g.Plain)
}

// renamed reads the note names of a field's value in one naming and writes them
// in another; one of the two is g. What it can't read it leaves as it is, to be
// told of.
func renamed(g pitch.Naming, field, value string, read func(string) (pitch.Name, error), write func(pitch.Name) string) string {
	names := saidFields[field]
	if g == pitch.English || names == nil {
		return value
	}
	return names(value, func(name string) string {
		n, err := read(name)
		if err != nil {
			return ""
		}
		return write(n)
	})
}

// firstWord turns the name that a scale begins with. A distance begins with
// none.
func firstWord(value string, turn func(string) string) string {
	name, rest, _ := strings.Cut(value, " ")
	if turned := turn(name); turned != "" && rest != "" {
		return turned + " " + rest
	}
	return value
}

// chordToken is a chord symbol among bar lines and repeat signs.
var chordToken = regexp.MustCompile(`[^\s|%]+`)

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
// and that leaves the kind of a chord, so that German "Asus4" is on A and
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
