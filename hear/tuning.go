package hear

import "math"

// A Tuning is how far a guitar lies above A4 = 440 Hz, in cents, −50 to 50.
type Tuning float64

// A tuner finds the tuning from the notes heard so far: the circular mean of
// their distances from the nearest key.
type tuner struct {
	x, y, weight float64
}

// How much is heard before the tuning is believed, in sure notes.
const tunedAfter = 3

func (t *tuner) add(midi, confidence float64) {
	angle := 2 * math.Pi * midi
	t.x += confidence * math.Cos(angle)
	t.y += confidence * math.Sin(angle)
	t.weight += confidence
}

// tuning returns the mean so far.
func (t *tuner) tuning() Tuning {
	if t.weight == 0 {
		return 0
	}
	return Tuning(100 * math.Atan2(t.y, t.x) / (2 * math.Pi))
}

// off returns how far a pitch lies from the nearest key of the guitar's own
// tuning, in semitones, from nought to a half; nought while the tuning isn't
// known.
func (t *tuner) off(midi float64) float64 {
	if t.weight < tunedAfter {
		return 0
	}
	own := midi - float64(t.tuning())/100
	return math.Abs(own - math.Round(own))
}
