package finger

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// Assign returns the best way to play each note, and how much the hands move. The
// path costs least of all paths, by the costs in costs.go. In a tie it takes,
// from the last note backwards, the way that was cheaper to reach; then the spot
// listed first in the note; then the higher position, the narrower hand, the
// lower finger; then down before up.
//
// Notes must follow each other in time. A [pitch.InputError] names the first note
// that can't be played, or what is wrong with the technique. Without notes there
// are no fingerings.
func Assign(in neck.Instrument, notes []Note, t Technique) ([]Fingering, Hand, error) {
	t, err := t.completed()
	if err != nil {
		return nil, Hand{}, err
	}
	if err := check(in, notes); err != nil {
		return nil, Hand{}, err
	}
	if len(notes) == 0 {
		return nil, Hand{}, nil
	}
	s := newSearch(in, t, notes)
	for i := range notes {
		s.extend(notes, i)
		if s.bestLast() < 0 {
			return nil, Hand{}, &pitch.InputError{What: fmt.Sprintf("note %d finger", i+1), Value: strconv.Itoa(notes[i].Given),
				Want: "one that the hand's reach brings to a place of the note"}
		}
	}
	path := s.path(len(notes))
	return fingerings(path), measure(in, path), nil
}

// A search holds every way to play each note so far and the best path to each.
type search struct {
	fingerboard
	picking Picking
	picker  picker
	ways    []way
	newest  int       // index of the last note's first way
	order   []int32   // the last note's ways, cheapest first
	grasped [][]grasp // the grasps of each fret, listed when first needed
	seen    []bool    // positions already listed for an open string
	usual   line.Beat // the median time between notes, for which changes cost 100 percent
}

func newSearch(in neck.Instrument, t Technique, notes []Note) *search {
	s := &search{fingerboard: newFingerboard(in, t.ReachMM), picking: t.Picking, picker: t.Picking.picker()}
	s.grasped = make([][]grasp, s.last+1)
	s.seen = make([]bool, (s.last+1)*(widestHand+1))
	s.ways = make([]way, 0, 24*len(notes))
	s.usual = usualGap(notes)
	return s
}

// usualGap returns the median time from one note's start to the next.
func usualGap(notes []Note) line.Beat {
	if len(notes) < 2 {
		return 0
	}
	gaps := make([]line.Beat, len(notes)-1)
	for i := range gaps {
		gaps[i] = notes[i+1].Start - notes[i].Start
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}

// A change is what all ways from one note to the next share.
type change struct {
	pace   effort // percent of what the change costs at the usual pace
	shift  effort // the cost of any shift of the hand, besides its distance
	parted bool   // whether no slur joins the two: there is silence, or a bend
}

// changeTo describes the change from note i − 1 to note i.
func (s *search) changeTo(notes []Note, i int) change {
	from, to := &notes[i-1], &notes[i]
	c := change{
		pace:   min(max(effort(100*s.usual/(to.Start-from.Start)), leisurely), hurried),
		shift:  shiftStart,
		parted: from.Start+from.Duration < to.Start || from.pushed() || to.pushed(),
	}
	if from.Group == to.Group {
		c.shift += shiftInsideGroup
	}
	return c
}

// extend adds the ways of note i, each joined to the best path before it.
func (s *search) extend(notes []Note, i int) {
	before, begin := s.newest, len(s.ways)
	var c change
	if i > 0 {
		c = s.changeTo(notes, i)
	}
	s.list(notes, i, &c, before, begin)
	for w := begin; i > 0 && w < len(s.ways); w++ {
		s.join(&s.ways[w], &c)
	}
	s.newest = begin
	s.sort()
}

// join finds the cheapest path that leads to the way. It tries the ways before it
// cheapest first, and stops at the first that costs more by itself than the path
// found. It skips a way if the distance of the first finger, the least that a
// movement costs, is already too much.
func (s *search) join(to *way, c *change) {
	best, back := never*leisurely/100, int32(-1) // less than any impossible change
	there := s.at[to.position.first]
	for _, b := range s.order {
		from := &s.ways[b]
		if from.total >= best {
			break
		}
		if from.finger != 0 {
			way := there - s.at[from.position.first]
			if from.total+max(way, -way)*c.pace/100 >= best {
				continue
			}
		}
		cost := s.picker(from, to, c.parted)
		if from.total+cost*c.pace/100 >= best {
			continue
		}
		cost += s.fretting(from, to, c)
		if total := from.total + cost*c.pace/100; total < best {
			best, back = total, b
		}
	}
	to.back = back
	to.total += best
	if back < 0 {
		to.total = never
	}
}

// sort orders the last note's ways by cost, then as listed.
func (s *search) sort() {
	s.order = s.order[:0]
	for w := s.newest; w < len(s.ways); w++ {
		if s.ways[w].total < never {
			s.order = append(s.order, int32(w))
		}
	}
	slices.SortFunc(s.order, func(a, b int32) int {
		if c := cmp.Compare(s.ways[a].total, s.ways[b].total); c != 0 {
			return c
		}
		return cmp.Compare(a, b)
	})
}

// bestLast returns the cheapest way of the last note, or −1 if none is left.
func (s *search) bestLast() int32 {
	if len(s.order) == 0 {
		return -1
	}
	return s.order[0]
}

// path returns the best path from first note to last.
func (s *search) path(notes int) []way {
	path := make([]way, notes)
	w := s.bestLast()
	for i := notes - 1; i >= 0; i-- {
		path[i] = s.ways[w]
		w = s.ways[w].back
	}
	return path
}

// fingerings returns the path as fingerings.
func fingerings(path []way) []Fingering {
	list := make([]Fingering, len(path))
	for i := range path {
		list[i] = Fingering{Spot: path[i].spot(), Finger: int(path[i].finger), Stroke: stroke(&path[max(0, i-1)], &path[i])}
	}
	return list
}
