package line

import "heddle/pitch"

// An Ending is one way home: notes that replace the end of the pattern and
// the target they reach on the beat.
type Ending struct {
	Replaced int    // how many of the pattern's last notes give way
	Notes    []Note // approach notes and the target, all in the landing role
	Target   pitch.Degree
	Cost     float64
}
