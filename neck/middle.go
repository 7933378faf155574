package neck

// A hand works best in the middle of the neck, from middleLow to middleHigh: at the
// nut the frets are widest and open strings get in the way, at the top they are
// narrow and hard to reach (common practice).
const (
	middleLow  = 3
	middleHigh = 12

	// costOffMiddle is what each fret off the middle counts for, in frets that the
	// hand moves. Three of them, the open position, outweigh a move of one fret.
	costOffMiddle = 0.4
)

// offMiddle returns how many frets a window begins off the middle of the neck: below
// it if negative.
func offMiddle(w Window) int {
	return min(w.Low-middleLow, 0) + max(w.Low-middleHigh, 0)
}

// costFrets is what a place costs the hand, in frets: how far it moves, and how far
// off the middle of the neck the home scale begins.
func costFrets(shift int, home Window) float64 {
	return float64(shift) + costOffMiddle*float64(apart(offMiddle(home), 0))
}
