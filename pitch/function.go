package pitch

// A Function is the role of a note over a chord.
type Function string

// The functions, from the inside out. Blue counts with the tensions.
const (
	ChordTone Function = "chord tone"
	Tension   Function = "tension"
	Blue      Function = "blue"
	Avoid     Function = "avoid"
	Outside   Function = "outside"
)

// Sign returns the one-character sign that text and pictures use for the function.
func (f Function) Sign() string {
	switch f {
	case ChordTone:
		return "·"
	case Tension:
		return "+"
	case Blue:
		return "~"
	case Avoid:
		return "!"
	}
	return "x"
}

// tensionAt is the degree for each pitch class above the root, over a chord that
// has no degree of its own there.
var tensionAt = [12]Degree{
	{1, 0}, {9, -1}, {9, 0}, {3, -1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0},
}

// Degree returns the degree over the chord of a note that belongs to a scale (the
// zero Scale for none). It goes by sound, not by letter: the chord's own degree if
// it has one, otherwise 1 ♭9 9 ♯9 3 11 ♯11 5 ♭13 13 ♭7 7. A minor third is ♯9 over
// a chord with a major third, otherwise ♭3. The flat fifth is ♭5 over a chord with
// a perfect fifth if the scale is on the chord's root and spells it as a fifth.
func (c Chord) Degree(n Name, from Scale) Degree {
	class := mod12(n.Class() - c.Root.Class())
	if d, ok := c.atClass(class); ok {
		return d
	}
	switch {
	case class == 3 && c.has(3, 0):
		return Degree{Number: 9, Alter: 1}
	case class == 6 && c.has(5, 0) && from.spellsFlatFifth(c.Root.Class()):
		return Degree{Number: 5, Alter: -1}
	}
	return tensionAt[class]
}

// spellsFlatFifth reports whether the scale is on the root and has a flat fifth
// with the letter of a fifth.
func (s Scale) spellsFlatFifth(root int) bool {
	flatFifth := Interval{Steps: 4, Semitones: 6}.From(s.Root)
	n, ok := s.Named(flatFifth.Class())
	return ok && n == flatFifth && s.Root.Class() == root
}

// Function returns the role of the note over the chord while a player is at home
// in a scale (the zero Scale for none). The rules are common practice (chord-scale
// teaching and the blues); the first that fits decides:
//
//  1. A degree of the chord up to the seventh is a chord tone; a ninth,
//     eleventh or thirteenth that the symbol names is a tension.
//  2. At home in a blues scale or minor pentatonic, the minor third over a
//     dominant is blue, and so is the flat fifth over a dominant or minor seventh.
//  3. Outside is what contradicts a third, a seventh or an altered fifth of the
//     chord: the other third, the other seventh, the perfect fifth. A named
//     tension excludes no other tension.
//  4. Over a dominant, ♭9, ♯9, ♯11 and ♭13 are tensions, but not ♯11 over a
//     suspended fourth.
//  5. A chord without a third leaves it open: either third and the fourth are
//     tensions, but the major third is an avoid note over a fourth.
//  6. A semitone above a chord tone is an avoid note: the eleventh over a
//     major third, ♭9 over anything but a dominant, ♭13 over a perfect fifth.
//  7. A whole tone above a chord tone is a tension, and so is what else the
//     symbol leaves open: the fifth, and either seventh if there is no sixth or
//     seventh. An open fifth counts as a chord tone for this and for rule 6.
//  8. Everything else is outside.
func (c Chord) Function(n Name, home Scale) Function {
	class := mod12(n.Class() - c.Root.Class())
	d, own := c.atClass(class)
	switch {
	case own && d.Number <= 7:
		return ChordTone
	case own:
		return Tension
	case home.Type.blue() && c.blueAt(class):
		return Blue
	case c.contradicts(class):
		return Outside
	case c.dominant() && c.altered(class), c.openThird(class):
		return Tension
	case c.coreAt(class - 1), class == 4:
		return Avoid
	case c.coreAt(class-2) || c.open(class):
		return Tension
	}
	return Outside
}

// blueAt reports whether a class that is not in the chord is blue over it
// (rule 2).
func (c Chord) blueAt(class int) bool {
	switch class {
	case 3:
		return c.dominant()
	case 6:
		return c.has(7, -1)
	}
	return false
}

// contradicts reports whether a class that is not in the chord is the other
// form of a degree that is (rule 3).
func (c Chord) contradicts(class int) bool {
	switch class {
	case 3:
		return c.has(3, 0) && !c.dominant()
	case 4:
		return c.has(3, -1)
	case 7:
		return c.has(5, -1) || c.has(5, 1) || c.has(13, -1) && c.has(11, 1)
	case 10:
		return c.has(7, 0) || c.has(7, -2) || c.has(3, 0) && c.has(6, 0)
	case 11:
		return c.has(7, -1)
	}
	return false
}

// altered reports whether a class is one of a dominant's altered tensions
// (rule 4).
func (c Chord) altered(class int) bool {
	switch class {
	case 1, 3, 8:
		return true
	case 6:
		return !c.has(4, 0)
	}
	return false
}

// openThird reports whether a class is a third or fourth that a chord without a
// third leaves open (rule 5).
func (c Chord) openThird(class int) bool {
	switch class {
	case 3, 5:
		return !c.number(3)
	case 4:
		return !c.number(3) && !c.number(4) && !c.has(11, 0)
	}
	return false
}

// coreAt reports whether a degree up to the seventh sounds at the class, or would:
// a symbol without a fifth leaves the perfect one open.
func (c Chord) coreAt(class int) bool {
	d, ok := c.atClass(class)
	return ok && d.Number <= 7 || mod12(class) == 7 && !c.number(5)
}

// open reports whether a class is a fifth or seventh that the symbol leaves open
// (rule 7).
func (c Chord) open(class int) bool {
	switch class {
	case 7:
		return !c.number(5)
	case 10, 11:
		return c.openSeventh()
	}
	return false
}

// openSeventh reports whether the symbol leaves sixth and seventh open.
func (c Chord) openSeventh() bool { return !c.number(6) && !c.number(7) }

// number reports whether the chord has a degree with the number.
func (c Chord) number(number int) bool {
	_, ok := c.own(number)
	return ok
}
