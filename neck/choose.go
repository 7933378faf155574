package neck

import (
	"cmp"
	"slices"
)

// Choose returns the pair to play near a fret: of the joined pairs, the one whose
// home placement has its first finger nearest to the fret (at fret 0, its lowest
// fret nearest to the open strings). In a tie, pairs whose placements all fit the hand come first, then
// the pair with the smaller shift. ok is false if no pair is joined.
//
// Nearness comes before the hand's reach, so that a player who asks for a fret
// gets that fret; Fits tells whether the placements need a stretch. With equally
// near first fingers, a placement that fits wins over one that begins nearer but
// needs a stretch: C major at fret 1 is the open position, not a stretch from 1
// to 5.
func Choose(pairs []Pair, fret int) (chosen Pair, ok bool) {
	begins := Placement.FirstFinger
	if fret == 0 {
		begins = func(p Placement) int { return p.Window.Low }
	}
	return pick(pairs, func(a, b *Pair) int {
		return cmp.Or(
			cmp.Compare(apart(begins(a.Home), fret), apart(begins(b.Home), fret)),
			fitsFirst(a, b),
			cmp.Compare(apart(a.Home.Window.Low, fret), apart(b.Home.Window.Low, fret)),
			a.ShiftFrets-b.ShiftFrets,
			a.Home.Window.Low-b.Home.Window.Low)
	})
}

// Usual returns the pair to play if no fret is asked for: of the joined pairs,
// those whose placements all fit the hand come first, then the smallest CostFrets,
// then the lowest on the neck. ok is false if no pair is joined.
func Usual(pairs []Pair) (usual Pair, ok bool) {
	return pick(pairs, func(a, b *Pair) int {
		return cmp.Or(
			fitsFirst(a, b),
			cmp.Compare(a.CostFrets, b.CostFrets),
			a.Home.Window.Low-b.Home.Window.Low)
	})
}

// FretOf returns the fret for which [Choose] returns this pair: the fret of its
// first finger, or a lower one if another placement has its first finger there
// too (E minor pentatonic from the open strings and from fret 2).
func FretOf(pairs []Pair, pair Pair) int {
	finger := max(1, pair.Home.FirstFinger())
	for fret := finger; fret >= 1; fret-- {
		if chosen, ok := Choose(pairs, fret); ok && chosen.sameSpots(pair) {
			return fret
		}
	}
	return finger
}

// sameSpots reports whether both pairs use the same spots.
func (p Pair) sameSpots(other Pair) bool {
	return slices.Equal(p.Home.Places, other.Home.Places) &&
		slices.EqualFunc(p.Superimposed, other.Superimposed, func(a, b Placement) bool {
			return slices.Equal(a.Places, b.Places)
		})
}

// pick returns the joined pair that compares lowest; in a tie, the earliest.
func pick(pairs []Pair, compare func(a, b *Pair) int) (Pair, bool) {
	best := -1
	for i := range pairs {
		if pairs[i].Joined && (best < 0 || compare(&pairs[i], &pairs[best]) < 0) {
			best = i
		}
	}
	if best < 0 {
		return Pair{}, false
	}
	return pairs[best], true
}

// fitsFirst is negative if only a fits the hand.
func fitsFirst(a, b *Pair) int {
	switch {
	case a.Fits == b.Fits:
		return 0
	case a.Fits:
		return -1
	}
	return 1
}

func apart(a, b int) int { return max(a-b, b-a) }
