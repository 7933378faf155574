package listen

import "math"

// A tuning is found from the notes heard so far: the circular mean of their
// distances from the nearest key.
type tuning struct {
	x, y, weight float64
}

// tunedAfter is how many sure notes it takes until the tuning is believed.
const tunedAfter = 3

func (t *tuning) add(midi, confidence float64) {
	angle := 2 * math.Pi * midi
	t.x += confidence * math.Cos(angle)
	t.y += confidence * math.Sin(angle)
	t.weight += confidence
}

func (t *tuning) cents() float64 {
	if t.weight == 0 {
		return 0
	}
	return 100 * math.Atan2(t.y, t.x) / (2 * math.Pi)
}

// off is how far a pitch lies from the nearest key of the guitar's own tuning, in
// semitones, from 0 to a half; 0 while the tuning isn't known.
func (t *tuning) off(midi float64) float64 {
	if t.weight < tunedAfter {
		return 0
	}
	own := midi - t.cents()/100
	return math.Abs(own - math.Round(own))
}
