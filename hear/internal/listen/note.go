package listen

import "math"

// A Note is one note as it sounded.
type Note struct {
	OnsetS     float64
	OffsetS    float64 // when it is damped, has died away or gives way to the next
	MIDI       float64
	Confidence float64 // the probability, 0 to 1, that a note began here
	Level      float64 // dB, soon after the onset
	Evidence
}

// Evidence is what else is known of a note, for matching it with a written one.
type Evidence struct {
	Rivals []Rival // pitches that it may have, its own included
	Flux   float64 // of its attack
	Early  bool    // live, until as much of it was heard as will be
	Slid   bool    // began without a stroke, by a change of pitch
}

// A Rival is a pitch that a note may have.
type Rival struct {
	MIDI    float64
	LogOdds float64
}

// SamePitch is how near two pitches are one note, in semitones.
const SamePitch = 0.6

// Sure is the confidence from which a moment counts as a note.
const Sure = 0.5

// Probability turns log odds into a probability.
func Probability(logOdds float64) float64 { return 1 / (1 + math.Exp(-logOdds)) }

// LogOdds turns a probability into log odds.
func LogOdds(probability float64) float64 {
	p := clamp(probability, 1e-9, 1-1e-9)
	return math.Log(p / (1 - p))
}

func clamp(x, low, high float64) float64 { return max(low, min(high, x)) }
