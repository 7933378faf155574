package line

// A Value is the note value a line moves in.
type Value string

// The values, each with its length as a Beat given by Length.
const (
	QuarterNote      Value = "quarter"
	Eighth           Value = "eighth"
	EighthTriplet    Value = "eighth-triplet"
	Sixteenth        Value = "sixteenth"
	SixteenthTriplet Value = "sixteenth-triplet"
	Quintuplet       Value = "quintuplet"
)

// A Meter is a time signature.
type Meter struct {
	Beats int // upper number
	Unit  int // lower number: 2, 4, 8 or 16
}

// Bar returns the length of a bar.
func (m Meter) Bar() Beat { return Beat(m.Beats) * 4 * Quarter / Beat(m.Unit) }

// A Swing is the ratio of the first to the second half of a divided beat;
// 1:1 (and the zero Swing) is straight. Written positions stay straight;
// sounding ones move.
type Swing struct {
	Long, Short int
}

// A Rhythm is how a line lies in time.
type Rhythm struct {
	Value  Value
	Meter  Meter
	Pickup Beat  // how long before the first bar line the line begins
	Swing  Swing // how halves of a beat are divided when they sound
	Gap    Beat  // rest between groups
}
