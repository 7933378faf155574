package score

import (
	"strings"

	"heddle/exercise"
	"heddle/pitch"
)

// spoken returns a note name as players of the naming say it, with music
// signs.
func spoken(naming pitch.Naming, n pitch.Name) string { return localName(naming, n) }

// germanFlats holds the two names that German says in its own way.
var solfegeSyllables = [7]string{"Do", "Re", "Mi", "Fa", "Sol", "La", "Si"}

func localName(naming pitch.Naming, n pitch.Name) string {
	symbol := n.Symbol()
	signs := strings.TrimPrefix(symbol, n.Letter.String())
	switch naming {
	case pitch.Solfege:
		return solfegeSyllables[n.Letter] + signs
	case pitch.German:
		if n.Letter == pitch.B {
			if n.Accidental == -1 {
				return "B"
			}
			return "H" + signs
		}
	}
	return symbol
}

// scaleText returns a scale's name as players of the naming say it.
func scaleText(naming pitch.Naming, s pitch.Scale) string {
	return spoken(naming, s.Root) + " " + withSigns(s.Type.Name)
}

// chordText returns a chord symbol with music signs and its roots in the
// naming.
func chordText(naming pitch.Naming, c pitch.Chord) string {
	rest, bass, slash := strings.Cut(c.Symbol, "/")
	if slash {
		if _, err := pitch.ParseName(bass); err != nil {
			rest, slash = c.Symbol, false // the slash of a 6/9
		}
	}
	text := spoken(naming, c.Root) + withSigns(afterRoot(rest))
	if slash {
		text += "/" + spoken(naming, c.Bass)
	}
	return text
}

// afterRoot returns what follows the root in a chord symbol.
func afterRoot(symbol string) string {
	for end := len(symbol); end > 0; end-- {
		if _, err := pitch.ParseName(symbol[:end]); err == nil {
			return symbol[end:]
		}
	}
	return symbol
}

// withSigns writes # and b before a number as music signs.
func withSigns(s string) string {
	var out strings.Builder
	for i, r := range s {
		beforeDigit := i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9'
		switch {
		case r == '#' && beforeDigit:
			out.WriteRune('♯')
		case r == 'b' && beforeDigit:
			out.WriteRune('♭')
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}

// shortLabels returns a short label for each scale of the exercise: its root
// where no other scale of the exercise stands on the same one, else a letter.
func shortLabels(ex *exercise.Exercise) []string {
	labels := make([]string, len(ex.Scales))
	letters := map[string]string{}
	for i, s := range ex.Scales {
		name := s.Name()
		if letters[name] == "" {
			letters[name] = string(rune('A' + len(letters)%26))
		}
		labels[i] = spoken(ex.Naming, s.Root)
	}
	for i, s := range ex.Scales {
		for _, t := range ex.Scales {
			if t.Root == s.Root && t.Name() != s.Name() {
				labels[i] = letters[s.Name()]
			}
		}
	}
	return labels
}
