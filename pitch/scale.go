package pitch

// A Type is a kind of scale: its name in the trade and its degrees, one for
// each note, rising from the root within an octave.
type Type struct {
	Name    string
	Aliases []string
	Degrees []Degree
}

// A Scale is a type on a root. Notes are spelled from the root, one for each
// degree, in rising order.
type Scale struct {
	Root  Name
	Type  Type
	Notes []Name
}

// NewScale spells the type on the root exactly as typed, double accidentals
// and all.
func NewScale(root Name, t Type) Scale {
	s := Scale{Root: root, Type: t, Notes: make([]Name, len(t.Degrees))}
	for i, d := range t.Degrees {
		s.Notes[i] = d.Above(root)
	}
	return s
}

// Name returns root and type in plain letters: "Ab minor pentatonic".
func (s Scale) Name() string { return s.Root.String() + " " + s.Type.Name }

// Symbol returns root and type with music signs: "A♭ minor pentatonic".
func (s Scale) Symbol() string { return s.Root.Symbol() + " " + s.Type.Name }

// Named returns the scale's own name for a pitch class, and whether the class
// is in the scale.
func (s Scale) Named(class int) (Name, bool) {
	for _, n := range s.Notes {
		if n.Class() == class {
			return n, true
		}
	}
	return Name{}, false
}
