package pitch

import "slices"

// A Chord is what a chord symbol means. Degrees rise from the root: 1, b3, 5, b7,
// 9.
type Chord struct {
	Symbol  string // as typed
	Root    Name
	Degrees []Degree // chord tones and the tensions the symbol names
	Bass    Name     // the root unless the symbol has a slash
}

// Name returns the chord's plain symbol, however it was typed: "Gm7b5" for "Gø",
// "G7(b9,#11)". [ParseChord] reads it back.
func (c Chord) Name() string {
	s := c.Root.String() + kindName(c.Degrees)
	if c.Bass != c.Root {
		s += "/" + c.Bass.String()
	}
	return s
}

// Display returns the plain symbol with music signs and the roots in the
// naming: "G7♯9", German "Hm7♭5".
func (c Chord) Display(naming Naming) string {
	s := naming.Name(c.Root) + Signs(kindName(c.Degrees))
	if c.Bass != c.Root {
		s += "/" + naming.Name(c.Bass)
	}
	return s
}

// own returns the chord's least altered degree with the number, if there is one.
func (c Chord) own(number int) (Degree, bool) {
	found, ok := Degree{}, false
	for _, d := range c.Degrees {
		if d.Number == number && (!ok || abs(d.Alter) < abs(found.Alter)) {
			found, ok = d, true
		}
	}
	return found, ok
}

// has reports whether the chord has exactly the degree.
func (c Chord) has(number, alter int) bool {
	return slices.Contains(c.Degrees, Degree{Number: number, Alter: alter})
}

// atClass returns the chord's degree at a pitch class above the root.
func (c Chord) atClass(class int) (Degree, bool) {
	for _, d := range c.Degrees {
		if d.Class() == mod12(class) {
			return d, true
		}
	}
	return Degree{}, false
}

// dominant reports whether the chord acts as a dominant: a minor seventh and
// no minor third.
func (c Chord) dominant() bool { return c.has(7, -1) && !c.has(3, -1) }

// abs returns the size of an alteration.
func abs(alter int) int { return max(alter, -alter) }
