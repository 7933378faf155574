package neck

import (
	"cmp"
	"slices"

	"heddle/pitch"
)

// A Pair is a home placement with a placement of each superimposed scale.
type Pair struct {
	Home         Placement
	Superimposed []Placement // one for each scale, in the order given
	ShiftFrets   int         // the most that two of the first fingers are apart
	ShiftMM      float64     // the same in mm
	WidthMM      float64     // from the lowest first finger to the highest fret of all
	SharedSpots  int         // spots a superimposed placement shares with home, added up
	Why          string      // the rank in a plain line
	Joined       bool        // whether the shift is within the hand's reach
	Fits         bool        // whether each placement by itself is within reach
}

// perHome is how many pairs Near lists for one home placement: enough to
// offer a choice, few enough to read.
const perHome = 4

// Near returns for every placement of the home scale its best partners among
// the placements of each superimposed scale, and up to three next best that
// are within reach, the whole list best first. Pairs are ranked by how little
// the hand moves: the shift of the first finger in mm, then the width of all
// together in mm, then by more shared spots, then by the same system as the
// home placement, then from the nut up. Where a home placement's best
// partners are laid out in another system than its own, the best of the same
// system within reach is listed too.
//
// Without superimposed scales each pair is a home placement alone. Where a
// scale has no placement at all, or reachMM is not a number, Near returns
// nothing.
func Near(in Instrument, home pitch.Scale, superimposed []pitch.Scale, reachMM float64) []Pair {
	n, ok := newNeighbours(in, home, superimposed, reachMM)
	if !ok {
		return nil
	}
	listed := make([]listing, 0, perHome*len(n.scales[0]))
	for h := range n.scales[0] {
		listed = n.appendBest(listed, h)
	}
	slices.SortStableFunc(listed, func(a, b listing) int { return a.rank.compare(b.rank) })
	return n.pairs(listed)
}

// A stand is what ranking needs to know of a placement.
type stand struct {
	first  int // fret of the first finger
	high   int
	frets  [maxStrings]uint64 // by string, one bit for each fret
	system string
	size   int // notes to the octave
	fits   bool
}

// neighbours is the work of one call of Near.
type neighbours struct {
	reachMM float64
	mm      [maxFrets + 1]float64 // by fret, from the nut
	placed  [][]Placement         // by scale, home first
	scales  [][]stand             // the same placements

	groups []group // of the home placement in hand
	seen   map[extent]int
}

// newNeighbours places all the scales; ok is false where one has no
// placement.
func newNeighbours(in Instrument, home pitch.Scale, superimposed []pitch.Scale, reachMM float64) (n *neighbours, ok bool) {
	if reachMM != reachMM {
		return nil, false
	}
	n = &neighbours{reachMM: reachMM, seen: map[extent]int{}}
	for _, s := range append([]pitch.Scale{home}, superimposed...) {
		placed := Placements(in, s)
		if len(placed) == 0 {
			return nil, false
		}
		stands := make([]stand, len(placed))
		for i, p := range placed {
			stands[i] = standOf(p, in, reachMM)
		}
		n.placed, n.scales = append(n.placed, placed), append(n.scales, stands)
	}
	for fret := range in.LastFret() + 1 {
		n.mm[fret] = in.FretMM(fret)
	}
	return n, true
}

func standOf(p Placement, in Instrument, reachMM float64) stand {
	s := stand{first: p.FirstFinger(), high: p.Window.High, system: p.System, size: len(p.Scale.Notes), fits: p.Fits(in, reachMM)}
	for _, place := range p.Places {
		s.frets[place.String-1] |= 1 << place.Fret
	}
	return s
}

// A rank is what a group of placements is judged by, as in Near.
type rank struct {
	shiftMM, widthMM float64
	shared           int
	mixed            bool // in another system than home's
}

// compare is negative where a is the better one.
func (a rank) compare(b rank) int {
	mixed := func(r rank) int {
		if r.mixed {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(a.shiftMM, b.shiftMM), cmp.Compare(a.widthMM, b.widthMM),
		b.shared-a.shared, mixed(a)-mixed(b))
}
