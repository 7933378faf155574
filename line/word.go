package line

import (
	"strings"

	"heddle/pitch"
)

// farthestSlip is how many letters a word may be off and still be taken for a
// slip of the finger.
const farthestSlip = 3

// wordError refuses a word that is none of the accepted ones, and offers the
// one it is closest to.
func wordError(field, typed string, accepted []string) error {
	e := &pitch.InputError{What: field, Value: typed, Want: orList(accepted)}
	best := farthestSlip + 1
	for _, word := range accepted {
		if d := slips(foldWord(typed), word); d < best && d < len(word) {
			best, e.Nearest = d, word
		}
	}
	return e
}

// orList writes words as a list that ends in "or".
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// slips counts the letters to add, drop or change between two words
// (Levenshtein 1966), and gives up beyond farthestSlip where their lengths
// alone say so.
func slips(a, b string) int {
	if len(a)-len(b) > farthestSlip || len(b)-len(a) > farthestSlip {
		return farthestSlip + 1
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
