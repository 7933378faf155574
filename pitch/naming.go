package pitch

import (
	"strconv"
	"strings"
)

// A Naming is a language of note names.
type Naming int

// The namings.
const (
	English Naming = iota // B♭, B
	German                // B, H
	Solfege               // fixed do: Si♭, Si
)

// namings are the words for the namings.
var namings = []string{"english", "german", "solfege"}

// ParseNaming reads "english", "german" or "solfege".
func ParseNaming(s string) (Naming, error) {
	word := strings.ToLower(strings.TrimSpace(s))
	for i, name := range namings {
		if word == name {
			return Naming(i), nil
		}
	}
	return English, &InputError{What: "names", Value: s, Want: "english, german or solfege", Nearest: Nearest(word, namings)}
}

// String returns the word that ParseNaming reads.
func (g Naming) String() string {
	if g < 0 || int(g) >= len(namings) {
		return namings[English]
	}
	return namings[g]
}

// Words for the letters C to B. Solfège is fixed do in French spelling; spoken
// German letters are spelled as they sound.
var (
	solfegeLetters = [7]string{"Do", "Ré", "Mi", "Fa", "Sol", "La", "Si"}
	solfegePlain   = [7]string{"Do", "Re", "Mi", "Fa", "Sol", "La", "Si"}
	germanSpoken   = [7]string{"Ce", "De", "E", "Ef", "Ge", "A", "Ha"}
)

// Name returns the name as written, with music signs: English "B♭",
// German "B" (and "H", "Es", "As", "Fis", "Ces", "Heses"), solfège "Si♭".
func (g Naming) Name(n Name) string {
	switch g {
	case German:
		return germanName(n)
	case Solfege:
		return solfegeLetters[n.Letter] + accidentalSigns(n.Accidental)
	}
	return n.Symbol()
}

// Names returns the names as written, with spaces between them.
func (g Naming) Names(names []Name) string {
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = g.Name(n)
	}
	return strings.Join(list, " ")
}

// List returns the names as a sentence does: "A, C and E".
func (g Naming) List(names []Name) string {
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = g.Name(n)
	}
	return listed(list, "and")
}

// Pitch returns the name with its octave: "B♭4".
func (g Naming) Pitch(p Pitch) string { return g.Name(p.Name) + strconv.Itoa(p.Octave) }

// Scale returns a scale's name with music signs: "B♭ dorian ♭2".
func (g Naming) Scale(s Scale) string { return g.Name(s.Root) + " " + s.Type.Symbol() }

// Plain returns the name in ASCII letters: "Bb", "B", "Sib".
func (g Naming) Plain(n Name) string {
	switch g {
	case German:
		return germanName(n)
	case Solfege:
		return solfegePlain[n.Letter] + accidentals(n.Accidental, "#", "b")
	}
	return n.String()
}

// Spoken returns the words for a voice: "B flat", German "Be", French
// "si bémol".
func (g Naming) Spoken(n Name) string {
	switch g {
	case German:
		switch {
		case n == Name{Letter: B, Accidental: -1}:
			return "Be"
		case n.Accidental == 0:
			return germanSpoken[n.Letter]
		}
		return germanName(n)
	case Solfege:
		return spoken(strings.ToLower(solfegeLetters[n.Letter]), n.Accidental, "dièse", "bémol")
	}
	return spoken(n.Letter.String(), n.Accidental, "sharp", "flat")
}

// Parse reads a name in the naming, with music signs or plain letters, in either
// case: German "H", "Es" or "fis", solfège "Si♭" or "sol#". It reads whatever
// Name and Plain write for up to three sharps or flats.
func (g Naming) Parse(s string) (Name, error) {
	if g == English {
		return ParseName(s)
	}
	typed := strings.ToLower(strings.TrimSpace(s))
	var valid []string
	for _, accidental := range []int{0, 1, -1, 2, -2, 3, -3} {
		for letter := C; letter <= B; letter++ {
			n := Name{Letter: letter, Accidental: accidental}
			if typed == strings.ToLower(g.Name(n)) || typed == strings.ToLower(g.Plain(n)) {
				return n, nil
			}
			valid = append(valid, g.Plain(n))
		}
	}
	want := "a German note name such as C, Fis, Es, B (B flat) or H"
	if g == Solfege {
		want = "a fixed-do note name such as Do, Fa# or Sib"
	}
	return Name{}, &InputError{What: "note name", Value: s, Want: want, Nearest: Nearest(capital(typed), valid)}
}

// capital returns a word with a capital letter at the beginning.
func capital(word string) string {
	if word == "" || word[0] < 'a' || word[0] > 'z' {
		return word
	}
	return string(word[0]-'a'+'A') + word[1:]
}

// spoken returns a letter and its accidental in words.
func spoken(letter string, accidental int, sharp, flat string) string {
	word := sharp
	if accidental < 0 {
		word = flat
	}
	switch abs(accidental) {
	case 0:
		return letter
	case 1:
		return letter + " " + word
	case 2:
		return letter + " double " + word
	case 3:
		return letter + " triple " + word
	}
	return letter + strings.Repeat(" "+word, abs(accidental))
}

// germanName joins letter and syllables: -is for each sharp, -es for each
// flat; B is H, and B♭ is B.
func germanName(n Name) string {
	letter := n.Letter.String()
	if n.Letter == B {
		letter = "H"
	}
	switch {
	case n.Accidental >= 0:
		return letter + strings.Repeat("is", n.Accidental)
	case n == Name{Letter: B, Accidental: -1}:
		return "B"
	case n.Letter == E:
		return "Es" + strings.Repeat("es", -n.Accidental-1)
	case n.Letter == A:
		return "As" + strings.Repeat("as", -n.Accidental-1)
	}
	return letter + strings.Repeat("es", -n.Accidental)
}
