package neck

import (
	"fmt"
	"slices"
	"strings"

	"heddle/pitch"
)

// ParseTuning reads open strings, string 1 first, as in [Instrument.Open]:
//
//   - the name of a tuning of the instrument, such as "drop D", "DADGAD" or "half
//     step down" (see tunings.go);
//   - the strings as tunings are written, from the last to string 1, with spaces or
//     commas between them: "E2 A2 D3 G3 B3 E4";
//   - their letters alone, "D A D G A D" or "DADGAD". Each string is then as near to
//     the instrument's own as its letter allows, the lower one in a tie; if the number
//     of strings differs, each is the lowest above the one before. An instrument
//     without strings needs the octaves.
//
// An error names the wrong word.
func ParseTuning(s string, in Instrument) ([]pitch.Pitch, error) {
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' || r == '-' })
	spelled := !slices.ContainsFunc(words, func(word string) bool { _, err := pitch.Parse(word); return err != nil })
	if !spelled {
		if open := in.tuningNamed(s); len(open) > 0 {
			return open, nil
		}
		if len(words) == 1 && in.Strings() > 0 && !strings.ContainsAny(s, "0123456789") {
			words = splitLetters(words[0])
		}
	}
	if len(words) == 0 || len(words) > maxStrings {
		return nil, &pitch.InputError{What: "tuning", Value: s, Nearest: in.nearestTuning(s),
			Want: fmt.Sprintf("1 to %d open strings, the lowest first, such as E2 A2 D3 G3 B3 E4 or D A D G A D, or a name such as drop D", maxStrings)}
	}
	open := make([]pitch.Pitch, len(words))
	for i, word := range words {
		at := len(words) - 1 - i
		p, err := pitch.Parse(word)
		if err != nil {
			name, nameErr := pitch.ParseName(word)
			if nameErr != nil || in.Strings() == 0 {
				return nil, in.badWord(s, word)
			}
			p = in.openNear(name, open, at)
		}
		if err := checkOpen(p); err != nil {
			return nil, err
		}
		open[at] = p
	}
	return open, nil
}

// badWord returns what one word of a tuning may be.
func (in Instrument) badWord(s, word string) error {
	e := &pitch.InputError{What: "tuning", Value: word, Want: "a note name with or without an octave, such as E2 or Bb, or the name of a tuning such as drop D", Nearest: in.nearestTuning(s)}
	if rest, isH := strings.CutPrefix(strings.ToUpper(word), "H"); isH {
		if p, err := pitch.Parse("B" + rest); err == nil { // H is the German name of B
			e.Nearest = p.String()
		}
	}
	return e
}

// openNear returns the pitch of a name for string at (from 0) of a tuning whose lower
// strings are set.
func (in Instrument) openNear(n pitch.Name, open []pitch.Pitch, at int) pitch.Pitch {
	lowest := lowestOpen
	switch {
	case len(open) == in.Strings():
		lowest = in.Open[at].MIDI() - 6
	case at < len(open)-1:
		lowest = open[at+1].MIDI() + 1
	default:
		lowest = in.Lowest().MIDI() - 6
	}
	above := ((n.Class()-lowest)%12 + 12) % 12
	return pitch.Named(n, lowest+above)
}

// splitLetters splits the letters of a tuning written as one word: "DADF#AD". With
// capitals, a small b is a flat: "EbAbDbGbBbEb".
func splitLetters(word string) []string {
	small := word == strings.ToLower(word)
	var words []string
	for _, r := range word {
		sign := strings.ContainsRune("#♯♭", r) || r == 'b' && !small
		if sign && len(words) > 0 {
			words[len(words)-1] += string(r)
		} else {
			words = append(words, string(r))
		}
	}
	return words
}

// FormatTuning returns open strings, string 1 first, as ParseTuning reads them.
func FormatTuning(open []pitch.Pitch) string {
	words := make([]string, len(open))
	for i, p := range open {
		words[len(open)-1-i] = p.String()
	}
	return strings.Join(words, " ")
}
