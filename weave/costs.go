package weave

// The cost of a reading, in points. One point is about what a listener needs to hear to
// believe in another scale.
const (
	// costOutside is the price of a note that is not in its scale.
	costOutside = 2.0

	// costLarge is the price of a note in its scale for each note that the scale has
	// beyond five: a larger scale explains less.
	costLarge = 0.05

	// costSkip is the price of each note of its scale that a step passes over, up to
	// mostSkipped of them: lines mostly move by step.
	costSkip    = 0.15
	mostSkipped = 2

	// costChange is the price of changing from one scale to another.
	costChange = 0.6

	// costScale is the price of each visit to a scale besides home; in a pattern, of
	// each scale besides home.
	costScale = 1.2

	// costUnheard is the price of each note of a scale that the line never plays.
	costUnheard = 0.25

	// costOtherType is the price of a scale of another type than home: players mostly
	// superimpose the scale that they are in.
	costOtherType = 0.75

	// costPattern is the price of a regular pattern, whose changes are then free.
	costPattern = 0.5

	// costUneven is the price of a pattern whose groups are not all of one size: most
	// are.
	costUneven = 0.3

	// costRun is the price of a run through the union of two scales. It is high, since
	// a run through a scale of seven is also one through two pentatonics.
	costRun = 3.0

	// nearlyEqual is how much more another reading may cost to be reported too.
	nearlyEqual = 0.5
)
