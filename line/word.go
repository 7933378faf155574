package line

import (
	"strings"

	"heddle/pitch"
)

// wordError refuses a word that is none of the accepted ones, and offers the
// one it is closest to.
func wordError(field, typed string, accepted []string) error {
	return &pitch.InputError{What: field, Value: typed, Want: orList(accepted), Nearest: pitch.Nearest(foldWord(typed), accepted)}
}

// orList writes words as a list that ends in "or".
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
