package exercise

import (
	"slices"
	"strings"

	"heddle/pitch"
)

// A form is changes in any key. Each chord is its degree over the key, a colon and its
// kind.
type form struct {
	name    string
	article string // before the name in a sentence
	aliases []string
	bars    string
}

// forms are the changes that players call by name (common practice: there are many
// variants of each, and these are the plain ones).
var forms = []form{
	{"blues", "a ", []string{"12 bar blues", "12-bar blues", "twelve bar blues", "twelve-bar blues", "a blues"},
		"1:7 | 4:7 | 1:7 | % | 4:7 | % | 1:7 | % | 5:7 | 4:7 | 1:7 | 5:7"},
	{"minor blues", "a ", []string{"a minor blues"},
		"1:m7 | % | % | % | 4:m7 | % | 1:m7 | % | b6:7 | 5:7 | 1:m7 | 5:7"},
	{"jazz blues", "a ", []string{"a jazz blues"},
		"1:7 | 4:7 | 1:7 | 5:m7 1:7 | 4:7 | #4:dim7 | 1:7 | 3:m7b5 6:7 | 2:m7 | 5:7 | 1:7 6:7 | 2:m7 5:7"},
	{"ii V I", "a ", []string{"ii-v-i", "ii–v–i", "2 5 1", "2-5-1", "a ii v i"}, "2:m7 | 5:7 | 1:maj7 | %"},
	{"minor ii V i", "a ", []string{"minor ii-v-i", "minor ii–v–i", "minor 2 5 1", "minor 2-5-1"}, "2:m7b5 | 5:7b9 | 1:m7 | %"},
	{"rhythm changes", "", []string{"rhythm"}, sectionA + "3:m7 6:7 | 2:m7 5:7 | " + sectionA + "2:m7 5:7 | 1:6 | " +
		"3:7 | % | 6:7 | % | 2:7 | % | 5:7 | % | " + sectionA + "2:m7 5:7 | 1:6"},
}

// sectionA is the first six bars of the three A sections of rhythm changes.
const sectionA = "1:maj7 6:7 | 2:m7 5:7 | 3:m7 6:7 | 2:m7 5:7 | 5:m7 1:7 | 4:maj7 4:m7 | "

// cutForm splits a form's name from its key: "blues in A".
func cutForm(text string) (name, key string, ok bool) {
	words := strings.Fields(text)
	n := len(words)
	if n < 3 || strings.ToLower(words[n-2]) != "in" || strings.Contains(text, barLine) {
		return "", "", false
	}
	return strings.Join(words[:n-2], " "), words[n-1], true
}

// findForm reads a form and its key. ok is false if the text does not ask for one.
func findForm(text string) (f form, key pitch.Name, ok bool, err error) {
	typed, keyText, ok := cutForm(text)
	if !ok {
		return form{}, pitch.Name{}, false, nil
	}
	folded := strings.ToLower(typed)
	i := slices.IndexFunc(forms, func(f form) bool {
		return strings.ToLower(f.name) == folded || slices.Contains(f.aliases, folded)
	})
	if i < 0 {
		names := make([]string, len(forms))
		for i, f := range forms {
			names[i] = f.name
		}
		return form{}, pitch.Name{}, false, &pitch.InputError{What: "changes", Value: text,
			Want: "chords, or one of these forms in a key: " + strings.Join(names, ", "), Nearest: nearestForm(folded, keyText, names)}
	}
	if key, err = pitch.ParseName(keyText); err != nil {
		return form{}, pitch.Name{}, false, named("changes", err)
	}
	return forms[i], key, true, nil
}

func nearestForm(typed, key string, names []string) string {
	if near := pitch.Nearest(typed, names); near != "" {
		return near + " in " + key
	}
	return ""
}

// readForm reads the bars of a form; ok is false if the text does not ask for one.
func readForm(text string) (bars []bar, ok bool, err error) {
	f, key, ok, err := findForm(text)
	if !ok {
		return nil, false, err
	}
	for _, one := range splitBars(f.bars) {
		if one == repeat {
			bars = append(bars, bars[len(bars)-1])
			continue
		}
		var chords bar
		for _, chord := range strings.Fields(one) {
			number, kind, _ := strings.Cut(chord, ":")
			degree, err := pitch.ParseDegree(number)
			if err != nil {
				return nil, false, err
			}
			chords = append(chords, formRoot(key, degree).String()+kind)
		}
		bars = append(bars, chords)
	}
	return bars, true, nil
}

// formRoot returns the root of a degree over a key. A root on a white key has its plain
// name: the sixth of a minor blues in A♭ is E, not F♭.
func formRoot(key pitch.Name, degree pitch.Degree) pitch.Name {
	tones := pitch.NewScale(key, pitch.Type{Degrees: []pitch.Degree{{Number: 1}, degree}}).Notes
	root := tones[len(tones)-1]
	if plain := pitch.PlainName(root.Class(), true); plain.Accidental == 0 {
		return plain
	}
	return root
}
