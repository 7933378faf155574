package pluck

import (
	"math"

	"heddle/sound/dsp"
)

// A knock is what is heard of a stroke beside the string: pick or finger on the
// string and the top, a thud of noise that is gone within hundredths of a second. In
// recorded notes it fills the space between the partials of the attack.
type knock struct {
	left  int
	gain  float32
	fall  float32 // of each sample
	dull  *dsp.Biquad
	noise dsp.Dice
}

// The knock.
const (
	knockHz   = 1100 // above which it is dull
	knockS    = 0.018
	knockEndS = 0.06
)

// newKnock returns the knock of a stroke of a strength.
func newKnock(n *Note, level, rate float64) knock {
	if level == 0 {
		return knock{}
	}
	d := n.Dice
	return knock{left: int(knockEndS * rate), gain: float32(level), fall: float32(math.Exp(-1 / (knockS * rate))),
		dull: dsp.LowPass(knockHz, 0.6, rate), noise: dsp.Roll(d.Next(), 1)}
}

// sound adds the knock's next samples to out. Room is for what is made at a
// time.
func (k *knock) sound(out, room []float32) {
	for k.left > 0 && len(out) > 0 {
		made := room[:min(k.left, len(out), len(room))]
		for i := range made {
			made[i] = k.noise.Noise() * k.gain
			k.gain *= k.fall
		}
		k.dull.Filter(made)
		mixIn(out[:len(made)], made)
		k.left -= len(made)
		out = out[len(made):]
	}
}
