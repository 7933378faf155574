package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// A rubbing is the squeak of a finger that moves along a wound string: noise
// round the rate at which it passes the windings, which rises and falls with
// the hand (Pakarinen, Puputti and Välimäki 2008).
type rubbing struct {
	left, length int
	band         *dsp.Biquad
	noise        dsp.Dice
	gain         float32
	buffer       []float32
}

// The hand's way.
const (
	rubS        = 0.07 // that a shift takes
	windingsMM  = 3.5  // windings in a millimetre
	loudestRub  = 0.012
	longRubMM   = 120 // at which a shift is as loud as it gets
	shortestRub = 15  // mm below which the finger rolls and does not rub
)

// newRubbing returns the squeak of the shift before a note. Level is how much
// of it the kind of string gives.
func newRubbing(n *Note, level, rate float64) rubbing {
	if n.Shift < shortestRub || level == 0 {
		return rubbing{}
	}
	d := n.Dice
	length := int(rubS * rate)
	hz := min(windingsMM*n.Shift/rubS, 3800)
	r := rubbing{left: length, length: length, band: dsp.BandPass(hz, 1.6, rate), noise: dsp.Roll(d.Next()), buffer: make([]float32, length)}
	r.gain = float32(level * loudestRub * math.Sqrt(min(1, n.Shift/longRubMM)))
	return r
}

// sound adds the squeak's next samples to out and reports whether there were
// any.
func (r *rubbing) sound(out []float32) bool {
	n := min(r.left, len(out))
	if n == 0 {
		return false
	}
	made := r.buffer[:n]
	for i := range made {
		x := 1 - float32(r.left-i)/float32(r.length)
		made[i] = r.noise.Noise() * r.gain * 16 * x * x * (1 - x) * (1 - x)
	}
	r.band.Filter(made)
	mixIn(out[:n], made)
	r.left -= n
	return true
}
