package sound

import (
	"strconv"
	"strings"

	"heddle/pitch"
)

// choose finds s among the accepted words, in any case and with any spacing.
func choose(what, s string, accepted []string) (int, error) {
	word := fold(s)
	for i, a := range accepted {
		if word == fold(a) {
			return i, nil
		}
	}
	return 0, &pitch.InputError{What: what, Value: s, Want: list(accepted), Nearest: nearest(word, accepted)}
}

// fold writes a word in lower case with single spaces between its parts;
// hyphens count as spaces.
func fold(s string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(s, "-", " "))), " ")
}

// list writes words as "a, b or c".
func list(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// nearest returns the accepted word at most two single-letter edits away
// from a word, or nothing.
func nearest(word string, accepted []string) string {
	best, at := 3, ""
	for _, a := range accepted {
		if d := editDistance(word, fold(a)); d < best && d < len(a) {
			best, at = d, a
		}
	}
	return at
}

// editDistance counts the insertions, deletions and substitutions of bytes
// that turn a into b (Levenshtein 1966). Long words are taken to be far.
func editDistance(a, b string) int {
	const long = 32
	if len(a) > long || len(b) > long {
		return long
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diagonal, row[j+1] = row[j+1], min(row[j+1]+1, row[j]+1, diagonal+cost)
		}
	}
	return row[len(b)]
}

// number writes a number as a person would type it.
func number(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

// parseNumber reads a finite number.
func parseNumber(what, s, want string) (float64, error) {
	f, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || f != f || f > 1e300 || f < -1e300 {
		return 0, &pitch.InputError{What: what, Value: s, Want: want}
	}
	return f, nil
}
