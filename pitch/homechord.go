package pitch

import "slices"

// ownKinds lists the scales whose chord is a matter of use, not of their notes:
// bebop dorian has both thirds and is played over a minor seventh chord.
var ownKinds = map[string]string{
	"bebop dorian": "m7",
}

// Chord returns the scale's own chord, which a vamp under it plays: G
// minor pentatonic has Gm7, G mixolydian G7, G major pentatonic G6. Every tone
// of the chord is in the scale. The rule:
//
//   - The third is major if the scale has one (a ♭4 counts if there is a ♭7),
//     otherwise minor, otherwise the fourth or second is suspended.
//   - The fifth is perfect if the scale has one, otherwise whatever it spells as
//     a fifth, otherwise augmented or diminished. A minor third without a perfect
//     fifth takes the diminished one.
//   - The seventh is minor, otherwise major. A diminished triad without a minor
//     seventh takes a diminished one. Without any seventh, a chord with a third
//     takes the sixth.
//   - A scale that has ♭9, ♯9, ♯11 and ♭13 around a third and a minor seventh
//     and no perfect fifth has the altered dominant.
func (s Scale) Chord() Chord {
	kind, ok := ownKinds[s.Type.Name]
	if !ok {
		kind = kindName(ownDegrees(s.Type.Degrees))
	}
	c := Chord{Root: s.Root, Bass: s.Root, Symbol: s.Root.String() + kind}
	c.Degrees, _ = parseKind(kind)
	return c
}

// ownDegrees returns the degrees of a scale's own chord.
func ownDegrees(degrees []Degree) []Degree {
	m := maskOfDegrees(degrees)
	if maskOfWords(alteredDegrees)&^m == 0 && !m.has(7) {
		return wordDegrees(alteredDegrees)
	}
	chord := []Degree{{Number: 1}}
	third, hasThird := ownThird(degrees, m)
	chord = append(chord, third...)
	minor := hasThird && third[0].Alter < 0
	fifth := ownFifth(degrees, m, minor)
	chord = append(chord, fifth...)
	diminished := minor && len(fifth) == 1 && fifth[0].Alter < 0
	switch {
	case m.has(10):
		chord = append(chord, Degree{Number: 7, Alter: -1})
	case diminished && m.has(9):
		chord = append(chord, Degree{Number: 7, Alter: -2})
	case m.has(11):
		chord = append(chord, Degree{Number: 7})
	case hasThird && m.has(9):
		chord = append(chord, Degree{Number: 6})
	}
	return chord
}

// ownThird returns the chord's third, or the suspended degree in its place, for
// which hasThird is false.
func ownThird(degrees []Degree, m mask) (third []Degree, hasThird bool) {
	spelled := slices.Contains(degrees, Degree{Number: 3}) // as a major third
	switch {
	case m.has(4) && (spelled || m.has(10) || !m.has(3)):
		return []Degree{{Number: 3}}, true
	case m.has(3):
		return []Degree{{Number: 3, Alter: -1}}, true
	case m.has(5):
		return []Degree{{Number: 4}}, false
	case m.has(2):
		return []Degree{{Number: 2}}, false
	}
	return nil, false
}

// ownFifth returns the chord's fifth, or none.
func ownFifth(degrees []Degree, m mask, minor bool) []Degree {
	if m.has(7) {
		return []Degree{{Number: 5}}
	}
	if minor && m.has(6) {
		return []Degree{{Number: 5, Alter: -1}}
	}
	for _, d := range degrees {
		if d.Number == 5 && abs(d.Alter) == 1 {
			return []Degree{d}
		}
	}
	switch {
	case m.has(8):
		return []Degree{{Number: 5, Alter: 1}}
	case m.has(6):
		return []Degree{{Number: 5, Alter: -1}}
	}
	return nil
}

// wordDegrees reads degrees of a table.
func wordDegrees(words string) []Degree {
	var degrees []Degree
	for _, word := range degreeWords(words) {
		degrees = append(degrees, mustDegree(word))
	}
	return degrees
}

// maskOfWords returns the classes of degrees of a table.
func maskOfWords(words string) mask { return maskOfDegrees(wordDegrees(words)) }
