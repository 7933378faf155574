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
	techniques := [...]Picking{Alternate, Economy, Legato}
	for _, p := range techniques {
		if word == string(p) {
			return p, nil
		}
	}
	err := &pitch.InputError{What: "picking", Value: s, Want: "alternate, economy or legato"}
	for _, p := range techniques {
		if len(word) <= 2*len(p) && slips(word, string(p)) <= len(p)/3 {
			err.Nearest = string(p)
			break
		}
	}
	return "", err
}

// slips counts the letters to put in, leave out or change to make a into b
// (Levenshtein's distance).
func slips(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			changed := diagonal
			if a[i] != b[j] {
				changed++
			}
			diagonal = row[j+1]
			row[j+1] = min(changed, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
