package line

import "heddle/pitch"

// A Rhythm is how a line is placed in time.
type Rhythm struct {
	Value  Value
	Meter  Meter
	Pickup Beat  // how long before the first bar line the line begins
	Swing  Swing // how a beat is divided when it sounds
	Gap    Beat  // rest between groups
}

// longestGap is the longest rest between groups: four bars of 4/4. With more, the
// groups are no longer one line.
const longestGap = 16 * Quarter

// Sounding returns when a written position of the line sounds. A line in triplets
// or quintuplets does not swing, because its notes divide the beat evenly (common
// practice). For what is played under such a line, use [Swing.Sounding].
func (r Rhythm) Sounding(written Beat) Beat {
	switch r.Value {
	case EighthTriplet, SixteenthTriplet, Quintuplet:
		return written
	}
	return r.Swing.Sounding(written, r.Meter)
}

// Check returns an error for a rhythm that can't be played: an unknown value, an
// impossible metre, a pickup as long as a bar, a gap below 0 or longer than
// longestGap, or swing in a compound metre, whose pulse has no halves.
func (r Rhythm) Check() error {
	if r.Value.Length() == 0 {
		return valueError(string(r.Value))
	}
	if err := r.Meter.Check(); err != nil {
		return err
	}
	if r.Pickup < 0 || r.Pickup >= r.Meter.Bar() {
		return &pitch.InputError{What: "pickup", Value: r.Pickup.String(),
			Want: "0 or more quarter notes, less than a bar of " + r.Meter.Bar().String()}
	}
	if err := r.Swing.Check(); err != nil {
		return err
	}
	if !r.Swing.Straight() && r.Meter.Compound() {
		return &pitch.InputError{What: "feel", Value: r.Swing.String(),
			Want: "straight in " + r.Meter.String() + ", whose pulse divides in three", Nearest: "straight"}
	}
	if r.Gap < 0 || r.Gap > longestGap {
		return &pitch.InputError{What: "gap", Value: r.Gap.String(),
			Want: "quarter notes of rest from 0 to " + longestGap.String()}
	}
	return nil
}
