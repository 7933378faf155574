package line

import (
	"sort"

	"heddle/neck"
)

// A ladder is a source with the MIDI keys of its placement, lowest first, and how
// far its groups reach. A rung is an index of these.
type ladder struct {
	scale  int // the source's index over all sections
	places []neck.Place
	keys   []int
	size   int
	order  []int
	reach  int // the step of a group farthest in the direction
}

func newLadder(s Source, scale int) ladder {
	l := ladder{scale: scale, places: s.Placement.Places, size: s.Size, order: s.Order, reach: farthest(s.Order, s.Size)}
	l.keys = make([]int, len(l.places))
	for i, place := range l.places {
		l.keys[i] = place.Pitch.MIDI()
	}
	return l
}

// outermost returns the rung that a pass starts from by default: the lowest if it
// rises, the highest if it falls.
func (l ladder) outermost(rises bool) int {
	if rises {
		return 0
	}
	return len(l.keys) - 1
}

// beyond returns the rung nearest to a key and strictly beyond it in the
// direction. If there is none, the rung is off the ladder.
func (l ladder) beyond(key int, rises bool) int {
	if rises {
		return sort.SearchInts(l.keys, key+1)
	}
	return sort.SearchInts(l.keys, key) - 1
}

// step returns the rung of a step, counted from a rung in the direction.
func (l ladder) step(rung, step int, rises bool) int {
	if rises {
		return rung + step - 1
	}
	return rung - step + 1
}

// fits reports whether a group that starts on the rung is completely on the
// ladder.
func (l ladder) fits(rung int, rises bool) bool {
	last := l.step(rung, l.reach, rises)
	return 0 <= rung && rung < len(l.keys) && 0 <= last && last < len(l.keys)
}

// stepAt returns the step that the group's note plays.
func (l ladder) stepAt(note int) int {
	if l.order == nil {
		return note + 1
	}
	return l.order[note]
}
