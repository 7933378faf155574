package phrase

import "math"

// The cost of a phrase, in points. One point is a flaw that a listener would notice.
const (
	// costRepeat is the price of playing a pitch again at once: it stands still.
	costRepeat = 0.6

	// costTurn is the price of turning back after a step, and costTurnThird after a
	// third: lines that go on in one direction have a shape. Turning after a leap, or
	// after a rest, is free. costOn is the price of a step or third in the same
	// direction as the one before: a scale run from end to end says nothing.
	costTurn      = 0.15
	costTurnThird = 0.05
	costOn        = 0.12

	// costBack is the price of turning back by more than a tone after a step or third: a
	// few notes that are played over and over begin like this, and a wide step wants to
	// be filled, not to undo what was played.
	costBack = 0.35

	// costTrill is the price of going back to the note before the last.
	costTrill = 0.5

	// costWeak is the price of a note on a strong beat that is not a chord tone, and
	// costEnd of one before a rest: these notes are heard as goals.
	costWeak = 0.3
	costEnd  = 0.4

	// costAvoid is the price of an avoid note, and costAvoidOnBeat on a beat;
	// costOutside is that of a home note that is outside the chord.
	costAvoid       = 0.3
	costAvoidOnBeat = 0.9
	costOutside     = 0.6

	// costNotHome is the price of a chord tone that is not in the home scale.
	costNotHome = 0.15

	// costNotGuide is the price of a first note over a new chord that is neither its
	// third nor its seventh, and costFar of more than a tone from the note before: voice
	// leading by guide tones (common practice).
	costNotGuide = 0.3
	costFar      = 0.4

	// costEarly is the price of a dip that starts in the second bar: the ear must know
	// home before it leaves. It counts only where there is a later bar.
	costEarly = 0.4

	// costInHome is the price of each note of a dip that home has too: it does not
	// sound outside.
	costInHome = 0.3

	// costShort is the price of a dip of fewer than three notes, which is heard as a
	// slip, and costLong of each note beyond six.
	costShort = 0.8
	costLong  = 0.2

	// costThirdInto is the price of a third into a dip, costToneOut of a tone out of
	// it, and costOffBeat of coming home off the beat: the return is heard best by a
	// semitone onto a beat.
	costThirdInto = 0.2
	costToneOut   = 0.3
	costOffBeat   = 0.4

	// costLastTone is the price of a tone to the landing instead of a semitone, and
	// costBare of a landing without its upper and lower neighbours before it.
	costLastTone = 0.2
	costBare     = 0.3

	// costGap is the price of a rest before the landing: it would be a new phrase.
	costGap = 1.0

	// costOtherRhythm is the price of a second rhythm unlike the first: repeating a
	// rhythm makes the listener hear one thought.
	costOtherRhythm = 0.3

	// costEdge is the price of each semitone that the first note lies from the middle of
	// the hand: there is room on both sides of it.
	costEdge = 0.05
)

const (
	fourth = 5 // semitones
	widest = 9 // semitones in the widest step, a major sixth
)

// widths is the price of a step by its semitones: steps are free, thirds almost.
var widths = [widest + 1]float64{costRepeat, 0, 0, 0.1, 0.15, 0.5, 1, 1, 1.4, 1.4}

// price returns the price of a step after the step before it, both in semitones upwards;
// infinite if the rules do not allow it. The first note's step is fresh, and so is one
// after a rest.
func stepPrice(before, step int, fresh bool) float64 {
	size, last := max(step, -step), max(before, -before)
	switch {
	case size > widest:
		return math.Inf(1)
	case last > fourth && (size > 2 || before*step >= 0):
		return math.Inf(1) // a leap is followed by a step back
	}
	price := widths[size]
	switch {
	case fresh || before*step == 0:
		return price
	case before*step > 0:
		if size < fourth && last < fourth {
			price += costOn
		}
		return price
	}
	if last <= 2 {
		price += costTurn
	} else if last <= 4 {
		price += costTurnThird
	}
	if size > 2 && last <= 4 {
		price += costBack
	}
	if step == -before && last <= fourth {
		price += costTrill
	}
	return price
}

// encloses reports whether the note before the previous step lies on the other side of
// the target, a tone away or less.
func encloses(before, step int) bool {
	first := -before - step
	return first*step > 0 && max(first, -first) <= 2
}
