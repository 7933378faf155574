package line

import "heddle/pitch"

// A Role is the part that a note plays in a line.
type Role string

// The roles.
const (
	PatternRole Role = "pattern"
	LandingRole Role = "landing"
)

// Chromatic is the Scale of a note that is in none of the line's scales.
const Chromatic = -1

// A Note is one note of a line.
type Note struct {
	Pitch    pitch.Pitch
	Group    int // counted from 0 over the whole line
	Scale    int // index of its source counted over all sections, or Chromatic
	Step     int // its step in the group's digital pattern, from 1
	Start    Beat
	Duration Beat
	Role     Role
}

// End returns when the note stops, as written.
func (n Note) End() Beat { return n.Start + n.Duration }
