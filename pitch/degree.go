package pitch

import "strconv"

// A Degree is a place in a scale or over a chord: a number counted from the
// root (1 to 7 in a scale, up to 13 over a chord) and its alteration in
// semitones against the major scale.
type Degree struct {
	Number int
	Alter  int
}

// Semitones returns the degree's distance above the root; a ninth is 14.
func (d Degree) Semitones() int {
	steps := d.Number - 1
	return 12*(steps/7) + naturals[steps%7] + d.Alter
}

// Class returns the degree's distance above the root within the octave.
func (d Degree) Class() int { return mod12(d.Semitones()) }

// String returns the degree in plain letters: "b7", "#11".
func (d Degree) String() string { return accidentals(d.Alter, "#", "b") + strconv.Itoa(d.Number) }

// Symbol returns the degree with music signs: "♭7", "♯11".
func (d Degree) Symbol() string { return accidentalSigns(d.Alter) + strconv.Itoa(d.Number) }

// MarshalText writes the plain degree.
func (d Degree) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// Above returns the name that stands at the degree above root.
func (d Degree) Above(root Name) Name {
	letter := Letter((int(root.Letter) + d.Number - 1) % 7)
	want := mod12(root.Class() + d.Semitones())
	alter := mod12(want - letter.Class())
	if alter > 6 {
		alter -= 12
	}
	return Name{Letter: letter, Accidental: alter}
}
