package pitch

import "strings"

// A Letter is one of the seven note letters, C = 0 … B = 6.
type Letter int

// The letters in the order of the staff from C.
const (
	C Letter = iota
	D
	E
	F
	G
	A
	B
)

// naturals holds the pitch class of each letter without an accidental.
var naturals = [7]int{0, 2, 4, 5, 7, 9, 11}

// Class returns the pitch class of the natural note on the letter.
func (l Letter) Class() int { return naturals[l] }

// String returns the letter in upper case.
func (l Letter) String() string { return "CDEFGAB"[l : l+1] }

// A Name is a note's name: a letter and an accidental in semitones
// (−1 flat, +2 double sharp). C♭ and B are one pitch class with two names;
// heddle never swaps them.
type Name struct {
	Letter     Letter
	Accidental int
}

// Class returns the name's pitch class, 0 (C) to 11 (B).
func (n Name) Class() int { return mod12(n.Letter.Class() + n.Accidental) }

// String returns the name in plain letters: "Ab", "F##", "Bbb".
func (n Name) String() string { return n.Letter.String() + accidentals(n.Accidental, "#", "b") }

// Symbol returns the English name with music signs: "A♭", "F𝄪", "B𝄫".
func (n Name) Symbol() string { return n.Letter.String() + accidentalSigns(n.Accidental) }

// MarshalText writes the plain name.
func (n Name) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// ParseName reads a note name: a letter A to G in either case, then any of
// #, ♯, x, 𝄪, b, ♭, 𝄫, at most three semitones in all.
func ParseName(s string) (Name, error) {
	n, rest, ok := cutName(s)
	if !ok || rest != "" {
		return Name{}, &InputError{What: "note name", Value: s, Want: "a letter A to G, then # or b, such as C, F# or Ab"}
	}
	return n, nil
}

// cutName reads a name at the beginning of s and returns what follows it.
func cutName(s string) (n Name, rest string, ok bool) {
	if s == "" {
		return Name{}, s, false
	}
	i := strings.IndexByte("CDEFGAB", s[0]&^0x20)
	if i < 0 {
		return Name{}, s, false
	}
	n.Letter, rest = Letter(i), s[1:]
	for {
		step, tail := cutAccidental(rest)
		if step == 0 || n.Accidental*step < 0 {
			break
		}
		n.Accidental += step
		rest = tail
	}
	return n, rest, n.Accidental >= -3 && n.Accidental <= 3
}

// cutAccidental reads one accidental at the beginning of s. Without one, step
// is 0.
func cutAccidental(s string) (step int, rest string) {
	for _, sign := range []struct {
		text string
		step int
	}{{"#", 1}, {"♯", 1}, {"x", 2}, {"𝄪", 2}, {"b", -1}, {"♭", -1}, {"𝄫", -2}, {"♮", 0}} {
		if tail, found := strings.CutPrefix(s, sign.text); found {
			return sign.step, tail
		}
	}
	return 0, s
}

// accidentals repeats sharp or flat for each semitone of alter.
func accidentals(alter int, sharp, flat string) string {
	if alter < 0 {
		return strings.Repeat(flat, -alter)
	}
	return strings.Repeat(sharp, alter)
}

// accidentalSigns writes alter in Unicode music signs.
func accidentalSigns(alter int) string {
	switch {
	case alter <= -2:
		return "𝄫" + accidentals(alter+2, "", "♭")
	case alter >= 2:
		return "𝄪" + accidentals(alter-2, "♯", "")
	}
	return accidentals(alter, "♯", "♭")
}

// Signs writes # and b before a number as music signs, for text that is meant to
// be read: "dorian ♭2", "m7♭5", "♭7".
func Signs(plain string) string {
	if !strings.ContainsAny(plain, "0123456789") {
		return plain
	}
	var b strings.Builder
	for rest := plain; rest != ""; {
		run := len(rest) - len(strings.TrimLeft(rest, rest[:1]))
		alter := map[byte]int{'#': run, 'b': -run}[rest[0]]
		if alter != 0 && run < len(rest) && rest[run] >= '0' && rest[run] <= '9' {
			b.WriteString(accidentalSigns(alter))
		} else {
			b.WriteString(rest[:run])
		}
		rest = rest[run:]
	}
	return b.String()
}

// shift returns the name a number of letters and semitones above n. If the two
// differ by more than half an octave, it takes the nearer octave of the letter.
func (n Name) shift(steps, semitones int) Name {
	letter := Letter(mod7(int(n.Letter) + steps))
	return Name{Letter: letter, Accidental: alteration(n.Class() + semitones - letter.Class())}
}

// rise returns the semitones from the root up to the major scale's degree that
// many letters above it.
func rise(steps int) int {
	within := mod7(steps)
	return 12*((steps-within)/7) + naturals[within]
}

// alteration reduces semitones to the smallest accidental, −5 to 6.
func alteration(semitones int) int {
	alter := mod12(semitones)
	if alter > 6 {
		alter -= 12
	}
	return alter
}

// mod7 reduces a number of letters to one of the seven.
func mod7(steps int) int { return ((steps % 7) + 7) % 7 }

// mod12 reduces a number of semitones to a pitch class.
func mod12(semitones int) int { return ((semitones % 12) + 12) % 12 }
