package pitch

import (
	"cmp"
	"slices"
	"strings"
)

// A CollectionName is a scale, chord or interval that fits a collection exactly.
type CollectionName struct {
	Root Name
	Name string   // "minor pentatonic"; a chord's plain symbol, "Am7/C"; "perfect fifth"
	Kind NameKind // what it names

	symbol    Chord  // of a chord
	inversion string // "first inversion", or empty
	to        Name   // the upper note of an interval
	rank      int    // how common it is, from 0
}

// A NameKind says what a name of a collection names.
type NameKind string

// The kinds of names.
const (
	IntervalName NameKind = "interval"
	ChordName    NameKind = "chord"
	ScaleName    NameKind = "scale"
)

// mostChordNotes bounds the notes of a collection that is named after chords: a
// player hears more as a scale.
const mostChordNotes = 6

// setNames finds every name that fits, most common first: by the rank in the table of
// scale types and chord kinds, where an inversion counts as one rank rarer; then, up
// to four notes, chords before scales, otherwise after them; then by the root's place
// in the notes. Two notes are named by their interval. With bass, the first note is
// the lowest, and chords are named by their inversion.
func (c *Collection) setNames(m mask, bass bool) {
	types := scaleTypes()
	for _, root := range c.Notes {
		above := m.above(root.Class())
		for _, t := range types.byMask[above] {
			c.Names = append(c.Names, CollectionName{Root: root, Name: types.types[t].Name, Kind: ScaleName, rank: typeRows[t].rank})
		}
		if len(c.Notes) >= fewestDegrees && len(c.Notes) <= mostChordNotes {
			for _, k := range chordKinds()[above] {
				c.Names = append(c.Names, k.on(root, c.Notes[0], bass))
			}
		}
	}
	if len(c.Notes) == 2 {
		for i, low := range c.Notes {
			high := c.Notes[1-i]
			c.Names = append(c.Names, CollectionName{Root: low, Name: Between(low, high).name(), Kind: IntervalName, to: high})
		}
	}
	slices.SortStableFunc(c.Names, func(a, b CollectionName) int {
		kind := cmp.Compare(a.Kind, b.Kind) // "chord" < "scale"
		if len(c.Notes) > 4 {
			kind = -kind
		}
		return cmp.Or(a.rank-b.rank, kind)
	})
}

// on returns the name of the kind of chord on a root.
func (k chordKind) on(root, lowest Name, bass bool) CollectionName {
	chord := Chord{Root: root, Bass: root, Degrees: k.degrees}
	n := CollectionName{Root: root, Kind: ChordName, rank: k.rank}
	if bass && lowest.Class() != root.Class() {
		chord.Bass = lowest
		n.inversion = k.inversion(mod12(lowest.Class() - root.Class()))
		n.rank++
	}
	n.Name, n.symbol = chord.Name(), chord
	return n
}

// name returns the interval without its direction: "perfect fifth".
func (i Interval) name() string {
	if i.Semitones < 0 { // G♯ to G: a diminished octave
		i.Steps, i.Semitones = i.Steps+7, i.Semitones+12
	}
	return quality(i.Steps, i.Semitones-rise(i.Steps)) + " " + ordinals[i.Steps]
}

// KnownAs returns the collection's names in words, each type of scale once: "G minor
// pentatonic", "Am7/C (first inversion)", "perfect fifth, C up to G", or "octatonic
// half-whole from C, E♭, F♯ or A" if several roots give the same notes.
func (c Collection) KnownAs(naming Naming) []string {
	var names []string
	for i, n := range c.Names {
		switch n.Kind {
		case IntervalName:
			name := n.Name
			if mod12(n.to.Class()-n.Root.Class()) == 6 {
				name += " (tritone)"
			}
			names = append(names, name+", "+naming.Name(n.Root)+" up to "+naming.Name(n.to))
		case ChordName:
			name := n.symbol.Display(naming)
			if n.inversion != "" {
				name += " (" + n.inversion + ")"
			}
			names = append(names, name)
		case ScaleName:
			same := func(other CollectionName) bool { return other.Kind == ScaleName && other.Name == n.Name }
			if slices.IndexFunc(c.Names, same) == i {
				names = append(names, c.scaleName(n, naming))
			}
		}
	}
	return names
}

// scaleName names a scale with all its roots.
func (c Collection) scaleName(n CollectionName, naming Naming) string {
	var roots []string
	for _, other := range c.Names {
		if other.Kind == ScaleName && other.Name == n.Name {
			roots = append(roots, naming.Name(other.Root))
		}
	}
	switch {
	case len(roots) == 1:
		return roots[0] + " " + Signs(n.Name)
	case c.Transpositions == 1:
		return Signs(n.Name) + " from any of them"
	}
	return Signs(n.Name) + " from " + listed(roots, "or")
}

// listed joins words as a sentence does: "A", "A and E", "A, C and E".
func listed(words []string, last string) string {
	end := len(words) - 1
	if end < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:end], ", ") + " " + last + " " + words[end]
}
