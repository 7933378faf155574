package hear

import (
	"heddle/exercise"
	"heddle/hear/internal/listen"
)

// A Heard is one note as it sounded.
type Heard struct {
	OnsetS     float64 `json:"onset_s"`    // seconds from the start of the recording
	OffsetS    float64 `json:"offset_s"`   // when it is damped, has died away or gives way to the next
	MIDI       float64 `json:"midi"`       // key number, 69 for 440 Hz, with its fraction
	Confidence float64 `json:"confidence"` // the probability, 0 to 1, that a note began here
	Level      float64 `json:"level"`      // dB against full scale, soon after the onset

	evidence listen.Evidence
}

func heardNote(n listen.Note) Heard {
	return Heard{n.OnsetS, n.OffsetS, n.MIDI, n.Confidence, n.Level, n.Evidence}
}

// Options is what may be known of a take before it is heard. The zero value
// knows nothing.
type Options struct {
	// Lowest is the lowest MIDI key the instrument has, its lowest open string;
	// nothing lower is heard. Zero means E1.
	Lowest int
	// Highest is the highest MIDI key. Zero means E6.
	Highest int
	// Doubts asks for moments too that are less likely notes than not, with a
	// Confidence below one half. Mark takes one for a written note that would
	// otherwise be missed, and drops the others.
	Doubts bool
}

func (o Options) listen(live bool) listen.Options {
	lowest, highest := listen.LowestKey, listen.HighestKey
	if o.Lowest > lowest {
		lowest = o.Lowest
	}
	if o.Highest > 0 && o.Highest < highest {
		highest = o.Highest
	}
	return listen.Options{Lowest: float64(lowest), Highest: float64(max(highest, lowest+12)), Doubts: o.Doubts, Live: live}
}

// OptionsFor bounds what is heard by the exercise's instrument. An exercise
// without one is bounded by its notes, and an octave below and above them.
func OptionsFor(ex *exercise.Exercise) Options {
	low, high := listen.HighestKey, listen.LowestKey
	for _, n := range ex.Notes {
		low, high = min(low, n.Pitch.MIDI()-12), max(high, n.Pitch.MIDI()+12)
	}
	if open := ex.Instrument.Open; len(open) > 0 {
		low = listen.HighestKey
		for _, p := range open {
			low = min(low, p.MIDI()+ex.Instrument.Capo)
		}
		high = max(high, listen.LowestKey)
	}
	return Options{Lowest: max(low, listen.LowestKey), Highest: min(high, listen.HighestKey), Doubts: true}
}
