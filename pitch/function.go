package pitch

// A Function is the role of a note over a chord.
type Function string

// The functions.
const (
	ChordTone Function = "chord tone"
	Tension   Function = "tension"
	Avoid     Function = "avoid"
	Outside   Function = "outside"
)

// tensionAt is the degree for each pitch class above the root, over a chord that
// has no degree of its own there.
var tensionAt = [12]Degree{
	{1, 0}, {9, -1}, {9, 0}, {3, -1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0},
}

// Degree returns the note's degree over the chord, by its sound and not by its
// letter: the chord's own degree if it has one, otherwise 1 ♭9 9 ♯9 3 11 ♯11 5
// ♭13 13 ♭7 7. A minor third is ♯9 over a chord with a major third, otherwise ♭3.
func (c Chord) Degree(n Name) Degree {
	class := mod12(n.Class() - c.Root.Class())
	if d, ok := c.atClass(class); ok {
		return d
	}
	if class == 3 && c.has(3, 0) {
		return Degree{Number: 9, Alter: 1}
	}
	return tensionAt[class]
}

// Function returns the role of the note over the chord. The rules are common
// practice (chord-scale teaching); the first that fits decides:
//
//  1. A degree of the chord up to the seventh is a chord tone; a ninth,
//     eleventh or thirteenth that the symbol names is a tension.
//  2. Outside is what contradicts a tone of the chord: the other third, the
//     other seventh, a perfect fifth over an altered one, and the other form
//     of a ninth, eleventh or thirteenth that the symbol names.
//  3. Over a dominant, ♭9, ♯9, ♯11 and ♭13 are tensions, but not ♯11 over a
//     suspended fourth.
//  4. A semitone above a chord tone is an avoid note: the eleventh over a
//     major third, ♭9 over anything but a dominant, ♭13 over a perfect fifth.
//  5. A whole tone above a chord tone is a tension, and so is what the symbol
//     leaves open: either third if there is none and nothing in its place, the
//     fifth, either seventh if there is no sixth or seventh.
//  6. Everything else is outside.
func (c Chord) Function(n Name) Function {
	class := mod12(n.Class() - c.Root.Class())
	d, own := c.atClass(class)
	switch {
	case own && d.Number <= 7:
		return ChordTone
	case own:
		return Tension
	case c.contradicts(class):
		return Outside
	case c.dominant() && c.altered(class):
		return Tension
	case c.coreAt(class - 1):
		return Avoid
	case c.coreAt(class-2) || c.open(class):
		return Tension
	}
	return Outside
}

// contradicts reports whether a class that is not in the chord is the other
// form of a degree that is (rule 2).
func (c Chord) contradicts(class int) bool {
	switch class {
	case 1:
		return c.has(9, 0)
	case 2:
		return c.has(9, -1) || c.has(9, 1)
	case 3:
		return c.has(3, 0) && (!c.dominant() || c.has(9, 0))
	case 4:
		return c.has(3, -1)
	case 5:
		return c.has(11, 1)
	case 6:
		return c.has(11, 0)
	case 7:
		return c.has(5, -1) || c.has(5, 1) || c.has(13, -1) && c.has(11, 1)
	case 8:
		return c.has(13, 0)
	case 9:
		return c.has(13, -1)
	case 10:
		return c.has(7, 0) || c.has(7, -2) || c.has(3, 0) && c.has(6, 0)
	case 11:
		return c.has(7, -1)
	}
	return false
}

// altered reports whether a class is one of a dominant's altered tensions
// (rule 3).
func (c Chord) altered(class int) bool {
	switch class {
	case 1, 3, 8:
		return true
	case 6:
		return !c.has(4, 0)
	}
	return false
}

// coreAt reports whether a degree up to the seventh sounds at the class.
func (c Chord) coreAt(class int) bool {
	d, ok := c.atClass(class)
	return ok && d.Number <= 7
}

// open reports whether a class is a third, fifth or seventh that the symbol
// leaves open (rule 5).
func (c Chord) open(class int) bool {
	switch class {
	case 3, 4:
		return !c.number(3) && !c.number(4) && !c.number(2)
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
