package neck

import "cmp"

// Choose returns the pair to play near a fret: among the joined pairs the one
// whose home placement has its first finger nearest to the fret (0 asks for
// the open strings). Of those, pairs whose every placement the hand can hold
// come first, then the better ranked, which is the one with the smaller shift.
// ok is false where no pair is joined.
//
// Nearness counts before the hand's reach, so that a player who asks for a
// fret is never sent elsewhere; pairs of [Near] say by Fits where a placement
// wants a stretch.
func Choose(pairs []Pair, fret int) (chosen Pair, ok bool) {
	return pick(pairs, func(a, b *Pair) int {
		return cmp.Or(
			cmp.Compare(apart(a.Home.FirstFinger(), fret), apart(b.Home.FirstFinger(), fret)),
			cmp.Compare(apart(a.Home.Window.Low, fret), apart(b.Home.Window.Low, fret)),
			fitsFirst(a, b))
	})
}

// Lowest returns the pair to play where no fret is asked for: among the
// joined pairs, those whose every placement the hand can hold first, the one
// with the smallest shift in frets, then the one lowest on the neck, then the
// narrowest. ok is false where no pair is joined.
func Lowest(pairs []Pair) (lowest Pair, ok bool) {
	return pick(pairs, func(a, b *Pair) int {
		return cmp.Or(
			fitsFirst(a, b),
			a.ShiftFrets-b.ShiftFrets,
			a.Home.Window.Low-b.Home.Window.Low,
			cmp.Compare(a.WidthMM, b.WidthMM))
	})
}

// pick returns the joined pair that compares lowest, the earliest of equals.
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

// fitsFirst is negative where only a fits the hand.
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
