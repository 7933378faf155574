package score

import "strconv"

// noteClass returns the class of a note's group by the number of its scale:
// "note s0" for home, "note chromatic" for one of no scale.
func noteClass(style int) string {
	if style < 0 {
		return "note chromatic"
	}
	return "note " + classes[Scale(style)]
}

// noteID returns a note's id within a view.
func noteID(note int) string { return "n" + strconv.Itoa(note) }
