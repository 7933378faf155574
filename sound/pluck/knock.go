package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// A knock is what is heard of a stroke beside the string: pick or finger on the
// string and the top, a thud of noise that is gone within a tenth of a second. In
// recorded notes it fills the space between the partials of the attack.
type knock struct {
	left   int
	gain   float32
	fall   float32 // of each sample
	dull   *dsp.Biquad
	noise  dsp.Dice
	buffer []float32
}

// The knock.
const (
	knockHz   = 1100 // above which it is dull
	knockS    = 0.018
	knockEndS = 0.1
)

// newKnock returns the knock of a stroke of a strength.
func newKnock(n *Note, level, rate float64) knock {
	if level == 0 {
		return knock{}
	}
	d := n.Dice
	length := int(knockEndS * rate)
	return knock{left: length, gain: float32(level), fall: float32(math.Exp(-1 / (knockS * rate))),
		dull: dsp.LowPass(knockHz, 0.6, rate), noise: dsp.Roll(d.Next(), 1), buffer: make([]float32, length)}
}

// sound adds the knock's next samples to out.
func (k *knock) sound(out []float32) {
	made := k.buffer[:min(k.left, len(out))]
	for i := range made {
		made[i] = k.noise.Noise() * k.gain
		k.gain *= k.fall
	}
	k.left -= len(made)
	if len(made) > 0 {
		k.dull.Filter(made)
		mixIn(out[:len(made)], made)
	}
}
