package landing

import (
	"math"

	"heddle/line"
)

// The cost of an ending, in points. One point is the price of a step that a listener
// would notice as a flaw. All are whole eighths of a point, so that sums are exact.
const (
	// costReplaced is the price of each pattern note that is replaced: the pattern
	// is what the player wants to play.
	costReplaced = 0.5

	// costResting is the price of a quarter note of silence before the approach,
	// which interrupts the line. longestRest caps it: after a bar of silence, the
	// ending sounds like a new phrase.
	costResting = 1.0
	longestRest = 4.0

	// costApproaching is the price of each approach note: of two equally smooth
	// endings, the shorter is better. costFurther is added for each note more than
	// usualApproach: four are nearly always enough, and a longer approach is a detour.
	costApproaching = 0.125
	costFurther     = 2.0
	usualApproach   = 4

	// costAway is the price of an approach note from a superimposed scale, and
	// costChromatic of one from no scale: the line is returning home.
	costAway      = 0.25
	costChromatic = 0.5

	// costUnresolved is the price of a chromatic note that does not move on by a
	// semitone (common practice).
	costUnresolved = 1.0

	// costTurning is the price of a change of direction, except after a leap of a
	// third or more, which it fills (common practice in melody).
	costTurning = 0.25
	leapTurns   = 3

	// costTrilling is the price of going back to the note before: it gets nowhere.
	costTrilling = 1.0

	// costPassing is the price of each target, in any octave, that the approach
	// plays or steps over on the way: the line was there and left again. The last
	// two notes before the target may step over it, since an enclosure and a leap
	// that is filled do.
	costPassing = 2.0

	// costLastTone is the price of a last step of a tone; a semitone leads more
	// strongly.
	costLastTone = 0.5

	// costBare is the price of a target that is not enclosed, with its upper and
	// lower neighbours in either order just before. The change of direction in an
	// enclosure is free.
	costBare = 1.0

	// costAnticipated is the price of a target before its beat: an accent off the
	// beat, where a landing on it was asked for.
	costAnticipated = 1.5

	// costDetour is how much more than the best an ending may cost and still be
	// offered: with more than three flaws, nobody would play it.
	costDetour = 3.25
)

const (
	widest    = 5          // semitones in the widest step: a fourth
	lastWidth = 2          // semitones in the widest last step: a tone
	wider     = widest + 1 // any step of the pattern wider than a fourth
)

// leaps is the price of a step by its semitones: steps are free, a third is
// noticeable, a fourth more so.
var leaps = [widest + 1]float32{0, 0, 0, 0.5, 1, 1.5}

// moves is the price of a step by the step before it, and homes that of the last
// step. Indices are the semitones up plus wider; 0 before means there is none.
var moves, homes = priceSteps()

type stepPrices [2*wider + 1][2*wider + 1]float32

func priceSteps() (moves, homes stepPrices) {
	for before := -wider; before <= wider; before++ {
		for step := -wider; step <= wider; step++ {
			moves[before+wider][step+wider] = priceMove(before, step)
			homes[before+wider][step+wider] = priceHome(before, step)
		}
	}
	return moves, homes
}

// never is the price of what is not allowed.
var never = float32(math.Inf(1))

// priceMove is the price of a step.
func priceMove(before, step int) float32 {
	width := max(step, -step)
	if width == 0 || width > widest {
		return never
	}
	price := leaps[width]
	if turns := before*step < 0; turns && max(before, -before) < leapTurns {
		price += costTurning
	}
	if step == -before {
		price += costTrilling
	}
	return price
}

// priceHome is the price of the step onto the target.
func priceHome(before, step int) float32 {
	width := max(step, -step)
	if width == 0 || width > lastWidth {
		return never
	}
	var price float32
	if width == lastWidth {
		price += costLastTone
	}
	if encloses(before, step) {
		return price
	}
	return price + costBare + priceMove(before, step)
}

// encloses reports whether the note before the previous step is on the other side
// of the target, a tone away or less.
func encloses(before, step int) bool {
	first := -before - step // where that note lies from the target
	return first*step > 0 && max(first, -first) <= lastWidth
}

// priceRest is the price of a silence.
func priceRest(rest line.Beat) float32 {
	// Whole eighths of a point keep the sum exact.
	return float32(min(longestRest, math.Round(8*costResting*rest.Quarters())/8))
}
