package score

import (
	"strconv"

	"heddle/neck"
)

// noteClass returns the class of a note's group by the number of its scale:
// "note scale0" for home, "note chromatic" for one of no scale.
func noteClass(style int) string {
	if style < 0 {
		return "note chromatic"
	}
	return "note " + scaleClass(style)
}

// scaleClass returns the class of a group by the number of its scale. It is
// not that of a paint: what the group holds keeps its own colour.
func scaleClass(style int) string { return "scale" + strconv.Itoa(style) }

// noteID returns a note's id within a view.
func noteID(note int) string { return "n" + strconv.Itoa(note) }

// SpotID returns what the id of a spot's group in the neck ends with, after the
// prefix: "s2f13" for string 2 at fret 13.
func SpotID(s neck.Spot) string { return "s" + strconv.Itoa(s.String) + "f" + strconv.Itoa(s.Fret) }
