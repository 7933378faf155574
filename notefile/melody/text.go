package melody

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestText is the longest title or chord symbol taken from a file, in
// characters.
const longestText = 200

// CleanText turns text from a file into one line without control characters.
// Bytes that are not UTF-8 are read as Latin-1, which old files use.
func CleanText(text string) string {
	var clean []rune
	for len(text) > 0 && len(clean) < longestText {
		r, size := utf8.DecodeRuneInString(text)
		if r == utf8.RuneError && size <= 1 {
			r, size = rune(text[0]), 1
		}
		if unicode.IsControl(r) {
			r = ' '
		}
		clean, text = append(clean, r), text[size:]
	}
	return strings.Join(strings.Fields(string(clean)), " ")
}
