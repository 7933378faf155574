// Package drumkit makes the strokes of a drum kit, each in a few takes.
package drumkit

import (
	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// A Piece is one thing of the drum kit struck in one way.
type Piece int

// The pieces.
const (
	Kick Piece = iota
	Snare
	Ghost // the snare, barely
	CrossStick
	BrushTap
	BrushSweep
	HatClosed
	HatOpen
	HatPedal
	Ride
	Pieces
)

// Takes is how many strokes of a piece are made, no two alike.
const Takes = 3

// A pieceMix is a piece's place in the kit.
type pieceMix struct {
	gain, pan, send float64
	choke           int
}

// kitMix places the kit as a listener in front of a right-handed drummer
// hears it.
var kitMix = [Pieces]pieceMix{
	Kick:       {1.0, 0, 0.05, 0},
	Snare:      {0.62, 0.06, 0.5, 0},
	Ghost:      {0.3, 0.06, 0.4, 0},
	CrossStick: {0.4, 0.08, 0.6, 0},
	BrushTap:   {0.55, 0.06, 0.5, 0},
	BrushSweep: {0.4, -0.05, 0.4, 0},
	HatClosed:  {0.3, 0.32, 0, 1},
	HatOpen:    {0.27, 0.32, 0.2, 1},
	HatPedal:   {0.3, 0.32, 0.2, 1},
	Ride:       {0.6, -0.38, 0, 0},
}

// NewKit makes the strokes of the pieces that are asked for. The sound of
// Piece p in take t is number p·takes+t.
func NewKit(needed [Pieces]bool, pl mixer.Place, rate float64) []mixer.Sample {
	kit := make([]mixer.Sample, Pieces*Takes)
	for p := range Pieces {
		if !needed[p] {
			continue
		}
		mix := kitMix[p]
		for t := range Takes {
			d := dsp.Roll(uint64(p), t)
			kit[int(p)*Takes+t] = mixer.Sample{
				Samples: struck(p, &d, rate),
				Place:   pl.Turned(mix.pan, mix.gain, mix.send),
				Choke:   mix.choke,
			}
		}
	}
	return kit
}

// struck makes one stroke of a piece.
func struck(p Piece, d *dsp.Dice, rate float64) []float32 {
	switch p {
	case Kick:
		return kickDrum(d, rate)
	case Snare:
		return snareDrum(d, rate, 1)
	case Ghost:
		return snareDrum(d, rate, 0.35)
	case CrossStick:
		return stick(d, rate)
	case BrushTap:
		return brush(d, rate, 0.002, 0.09)
	case BrushSweep:
		return brush(d, rate, 0.12, 0.2)
	case HatClosed:
		return hat(d, rate, 0.035)
	case HatOpen:
		return hat(d, rate, 0.22)
	case HatPedal:
		return hat(d, rate, 0.05)
	}
	return rideCymbal(d, rate)
}
