package finger

import (
	"strings"

	"heddle/pitch"
)

// A Picking is a picking technique.
type Picking string

// The techniques.
const (
	// Alternate picks every note, down and up in strict turn from a down
	// stroke, whatever the strings.
	Alternate Picking = "alternate"

	// Economy picks every note, down and up in turn on one string; a change of
	// string takes the stroke that goes that way, down towards string 1 and up
	// towards the last, so that two like strokes become one sweep.
	Economy Picking = "economy"

	// Legato picks the first note on a string, a note after a rest and a
	// repeated pitch; the others are hammered on, pulled off or slid to.
	Legato Picking = "legato"
)

// ParsePicking reads a picking technique's name in any case, with or without
// the word "picking" after it.
func ParsePicking(s string) (Picking, error) {
	word := strings.ToLower(strings.TrimSpace(s))
	word = strings.TrimSpace(strings.TrimSuffix(word, "picking"))
	for _, p := range [...]Picking{Alternate, Economy, Legato} {
		if word == string(p) {
			return p, nil
		}
	}
	return "", &pitch.InputError{
		What: "picking", Value: s, Want: "alternate, economy or legato",
		Nearest: pitch.Nearest(word, []string{string(Alternate), string(Economy), string(Legato)}),
	}
}
