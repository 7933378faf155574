package sound

// A piece is one thing of the drum kit struck in one way.
type piece int

// The pieces.
const (
	kick piece = iota
	snare
	ghost // the snare, barely
	crossStick
	brushTap
	brushSweep
	hatClosed
	hatOpen
	hatPedal
	ride
	pieces
)

// takes is how many strokes of a piece are made, no two alike.
const takes = 3

// A pieceMix is where a piece stands in the kit.
type pieceMix struct {
	gain, pan, send float64
	choke           int
}

// kitMix places the kit as a listener in front of a right-handed drummer
// hears it.
var kitMix = [pieces]pieceMix{
	kick:       {1.0, 0, 0.05, 0},
	snare:      {0.62, 0.06, 0.5, 0},
	ghost:      {0.3, 0.06, 0.4, 0},
	crossStick: {0.4, 0.08, 0.6, 0},
	brushTap:   {0.55, 0.06, 0.5, 0},
	brushSweep: {0.4, -0.05, 0.4, 0},
	hatClosed:  {0.3, 0.32, 0, 1},
	hatOpen:    {0.27, 0.32, 0.2, 1},
	hatPedal:   {0.3, 0.32, 0.2, 1},
	ride:       {0.6, -0.38, 0, 0},
}

// newKit makes the strokes of the pieces that are asked for. The sound of
// piece p in take t is number p·takes+t.
func newKit(needed [pieces]bool, pl place, rate float64) []sample {
	kit := make([]sample, pieces*takes)
	for p := range pieces {
		if !needed[p] {
			continue
		}
		mix := kitMix[p]
		for t := range takes {
			d := rollFor(uint64(p), t)
			kit[int(p)*takes+t] = sample{
				samples: struck(p, &d, rate),
				place:   pl.turned(mix.pan, mix.gain, mix.send),
				choke:   mix.choke,
			}
		}
	}
	return kit
}

// struck makes one stroke of a piece.
func struck(p piece, d *dice, rate float64) []float32 {
	switch p {
	case kick:
		return kickDrum(d, rate)
	case snare:
		return snareDrum(d, rate, 1)
	case ghost:
		return snareDrum(d, rate, 0.35)
	case crossStick:
		return stick(d, rate)
	case brushTap:
		return brush(d, rate, 0.002, 0.09)
	case brushSweep:
		return brush(d, rate, 0.12, 0.2)
	case hatClosed:
		return hat(d, rate, 0.035)
	case hatOpen:
		return hat(d, rate, 0.22)
	case hatPedal:
		return hat(d, rate, 0.05)
	}
	return rideCymbal(d, rate)
}
