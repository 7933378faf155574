package hear

import "heddle/exercise"

// A Heard is one note as it sounded.
type Heard struct {
	OnsetS     float64 `json:"onset_s"`    // seconds from the start of the recording
	OffsetS    float64 `json:"offset_s"`   // when it is damped, dies away or gives way to the next
	MIDI       float64 `json:"midi"`       // key number, 69 for 440 Hz, with its fraction
	Confidence float64 `json:"confidence"` // the probability, 0 to 1, that a note began here
	Level      float64 `json:"level"`      // dB against full scale, soon after the onset

	rivals []rival // pitches that it may have had instead, or its own
	flux   float64 // of its attack
	early  bool    // live, as long as not all was heard of it that will be
	slid   bool    // began without a stroke, by a change of pitch
}

// A rival is a pitch that a note may have had and how likely.
type rival struct {
	midi, odds float64
}

// Options is what may be known of a take before it is heard. The zero value
// knows nothing.
type Options struct {
	// Lowest is the lowest MIDI key the instrument has, its lowest open
	// string; nothing lower is heard. Zero means E1.
	Lowest int
	// Highest is the highest MIDI key. Zero means E6.
	Highest int
	// Doubts asks for moments too that are less likely notes than not, with
	// a Confidence below one half. Mark takes one for a written note that
	// would else be missed, and drops the others.
	Doubts bool
}

// The span of hearing without options: E1 to E6.
const (
	lowestHeard  = 28
	highestHeard = 88
)

func (o Options) span() (lowest, highest float64) {
	lowest, highest = lowestHeard, highestHeard
	if o.Lowest > lowestHeard {
		lowest = float64(o.Lowest)
	}
	if o.Highest > 0 && o.Highest < highestHeard {
		highest = float64(o.Highest)
	}
	return lowest, max(highest, lowest+12)
}

// OptionsFor bounds what is heard by the exercise's instrument. An exercise
// without one is bounded by its notes, and an octave below and above them.
func OptionsFor(ex *exercise.Exercise) Options {
	low, high := highestHeard, lowestHeard
	for _, n := range ex.Notes {
		low, high = min(low, n.Pitch.MIDI()-12), max(high, n.Pitch.MIDI()+12)
	}
	if open := ex.Instrument.Open; len(open) > 0 {
		low = highestHeard
		for _, p := range open {
			low = min(low, p.MIDI()+ex.Instrument.Capo)
		}
		high = max(high, lowestHeard)
	}
	return Options{Lowest: max(low, lowestHeard), Highest: min(high, highestHeard), Doubts: true}
}
