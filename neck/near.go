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
	ShiftFrets   int         // the largest distance between two first fingers
	ShiftMM      float64     // the same in mm
	CostFrets    float64     // what Near ranks by: ShiftFrets, and costOffMiddle for each fret off the middle
	WidthMM      float64     // from the lowest first finger to the highest fret of all
	SharedSpots  int         // spots shared with home, added up over the superimposed placements
	Why          string      // the reason for the rank, in one line
	Joined       bool        // whether the shift is within the hand's reach
	Fits         bool        // whether each placement is within reach by itself
}

// perHome is how many pairs Near lists for one home placement: enough for a
// choice, few enough to read.
const perHome = 4

// Near returns, for every placement of the home scale, its best partners among
// the placements of each superimposed scale and up to three more within reach.
// Partners are ranked by how little the hand moves: the shift of the first finger in
// mm, then the width of all together in mm, then more shared spots, then the same
// system as home, then from the nut up. If a home placement's best partners have
// another system than its own, the best with the same system within reach is listed
// too.
//
// The whole list is best first, by the shift in frets and the cost of each fret off
// the middle of the neck (see costOffMiddle), then as partners are: for the same
// movement, places from fret 3 to 12 come before those at the nut and the top.
//
// Without superimposed scales, each pair is a home placement alone. If a scale
// has no placement, or reachMM is not a number, Near returns nothing.
func Near(in Instrument, home pitch.Scale, superimposed []pitch.Scale, reachMM float64) []Pair {
	n, ok := newNeighbours(in, home, superimposed, reachMM)
	if !ok {
		return nil
	}
	listed := make([]listing, 0, perHome*len(n.scales[0]))
	for h := range n.scales[0] {
		listed = n.appendBest(listed, h)
	}
	slices.SortStableFunc(listed, func(a, b listing) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), a.rank.compare(b.rank))
	})
	return n.pairs(listed)
}

// A stand is what the rank needs to know about a placement.
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

	groups []group // of the current home placement
	seen   map[extent]int
}

// newNeighbours places all the scales; ok is false if one has no placement.
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
	s := stand{first: p.FirstFinger(), high: p.Window.High, system: p.System, size: len(p.Scale.Notes), fits: p.fits(in, reachMM)}
	for _, place := range p.AllPlaces() {
		s.frets[place.String-1] |= 1 << place.Fret
	}
	return s
}

// A rank orders groups of placements; see Near.
type rank struct {
	shiftMM, widthMM float64
	shared           int
	mixed            bool // in another system than home's
}

// compare is negative if a is better.
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
