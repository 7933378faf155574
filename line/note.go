package line

import "heddle/pitch"

// A Beat is a point or a length of time in 1/960 of a quarter note.
type Beat int

// Quarter is one quarter note.
const Quarter Beat = 960

// Quarters returns the time in quarter notes.
func (b Beat) Quarters() float64 { return float64(b) / float64(Quarter) }

// A Role says why a note stands in a line.
type Role string

// The roles.
const (
	PatternRole Role = "pattern"
	LandingRole Role = "landing"
)

// Chromatic is the Scale of a note that belongs to none of the line's scales.
const Chromatic = -1

// A Note is one note of a line.
type Note struct {
	Pitch    pitch.Pitch
	Group    int // counted from 0 over the whole line
	Scale    int // index of its scale, or Chromatic
	Step     int // its step in the group's digital pattern, from 1
	Start    Beat
	Duration Beat
	Role     Role
}
