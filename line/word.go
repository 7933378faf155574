package line

import (
	"strings"

	"heddle/pitch"
)

// wordError is the error for a word that is not accepted. It offers the closest
// word that is.
func wordError(field, typed string, accepted []string) error {
	return &pitch.InputError{What: field, Value: typed, Want: orList(accepted), Nearest: pitch.Nearest(foldWord(typed), accepted)}
}

// orList returns words as a list that ends in "or".
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
