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
	return 0, &pitch.InputError{What: what, Value: s, Want: list(accepted), Nearest: pitch.Nearest(word, accepted)}
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

// typed returns choices as they are typed.
func typed[S ~string](values []S) []string {
	words := make([]string, len(values))
	for i, v := range values {
		words[i] = string(v)
	}
	return words
}
