package neck

import (
	"fmt"
	"strconv"
	"strings"

	"heddle/pitch"
)

// ParseTuning reads open strings as tunings are written, from the last string to
// string 1, with spaces or commas between them: "E2 A2 D3 G3 B3 E4". The result
// has string 1 first, as in [Instrument.Open]. An error names the wrong word.
func ParseTuning(s string) ([]pitch.Pitch, error) {
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' })
	if len(words) == 0 || len(words) > maxStrings {
		return nil, &pitch.InputError{What: "tuning", Value: s,
			Want: fmt.Sprintf("1 to %d open strings, the lowest first, such as E2 A2 D3 G3 B3 E4", maxStrings)}
	}
	open := make([]pitch.Pitch, len(words))
	below := lowestOpen
	for i, word := range words {
		p, err := pitch.Parse(word)
		if err != nil {
			return nil, &pitch.InputError{What: "tuning", Value: word,
				Want: "a note name and an octave, such as E2 or Bb3", Nearest: meantOpen(word, below)}
		}
		if err := checkOpen(p); err != nil {
			return nil, err
		}
		below = p.MIDI()
		open[len(words)-1-i] = p
	}
	return open, nil
}

// FormatTuning returns open strings, string 1 first, as ParseTuning reads them.
func FormatTuning(open []pitch.Pitch) string {
	var b strings.Builder
	for i := len(open) - 1; i >= 0; i-- {
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(open[i].String())
	}
	return b.String()
}

// meantOpen returns the open string that was most likely meant: B for a German H,
// or for a note without an octave the first one above the string before it.
func meantOpen(word string, below int) string {
	if rest, isH := strings.CutPrefix(strings.ToUpper(word), "H"); isH {
		word = "B" + rest
	}
	if p, err := pitch.Parse(word); err == nil && checkOpen(p) == nil {
		return p.String()
	}
	if _, err := pitch.ParseName(word); err != nil {
		return ""
	}
	for octave := range 7 {
		p, err := pitch.Parse(word + strconv.Itoa(octave))
		if err == nil && checkOpen(p) == nil && p.MIDI() > below {
			return p.String()
		}
	}
	return ""
}
