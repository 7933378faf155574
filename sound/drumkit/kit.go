// Package drumkit plays the recorded strokes of a drum kit, each in a few takes.
// The recordings come from FluidR3 (MIT licence, strokes/strokes-LICENSE.txt) and
// are made by internal/record.
package drumkit

import "heddle/sound/mixer"

// A Piece is one thing of the drum kit struck in one way.
type Piece int

// The pieces.
const (
	Kick Piece = iota
	SoftKick
	Snare
	Ghost // the snare, barely
	CrossStick
	BrushTap
	BrushSweep
	HatClosed
	HatOpen
	HatPedal
	Ride
	RideBell
	Crash
	TomHigh
	TomMiddle
	TomLow
	Shaker
	Pieces
)

// Takes is how many strokes of a piece there are, no two alike.
const Takes = 3

// A pieceMix is a piece's recording and its place in the kit.
type pieceMix struct {
	file      string
	dB        float64 // peak, of the loudest stroke
	pan, send float64
	choke     int
}

// kitMix places the kit as a listener in front of a right-handed drummer
// hears it. Levels are those of a kit played with the same force, from the same
// recordings.
var kitMix = [Pieces]pieceMix{
	Kick:       {"kick", -2.5, 0, 0.05, 0},
	SoftKick:   {"soft-kick", -4, 0, 0.08, 0},
	Snare:      {"snare", -2.5, 0.08, 0.5, 0},
	Ghost:      {"ghost", -12, 0.08, 0.4, 0},
	CrossStick: {"cross-stick", -7, 0.1, 0.6, 0},
	BrushTap:   {"brush-tap", -5, 0.12, 0.5, 0},
	BrushSweep: {"brush-sweep", -9, -0.1, 0.4, 0},
	HatClosed:  {"hat-closed", -9.5, 0.5, 0, 1},
	HatOpen:    {"hat-open", -9.5, 0.5, 0.2, 1},
	HatPedal:   {"hat-pedal", -9.5, 0.5, 0.2, 1},
	Ride:       {"ride", -7.5, -0.55, 0, 0},
	RideBell:   {"ride-bell", -9, -0.55, 0, 0},
	Crash:      {"crash", -7, -0.4, 0.2, 0},
	TomHigh:    {"tom-high", -4, 0.3, 0.4, 0},
	TomMiddle:  {"tom-middle", -4, -0.05, 0.4, 0},
	TomLow:     {"tom-low", -4, -0.4, 0.4, 0},
	Shaker:     {"shaker", -10, -0.6, 0.3, 0},
}

// NewKit returns the strokes of the pieces that are asked for. The sound of
// Piece p in take t is number p·Takes+t.
func NewKit(needed [Pieces]bool, pl mixer.Place, rate int) ([]mixer.Sample, error) {
	kit := make([]mixer.Sample, Pieces*Takes)
	for p, mix := range kitMix {
		if !needed[p] {
			continue
		}
		takes, err := takesOf(mix.file, rate)
		if err != nil {
			return nil, err
		}
		for t, samples := range takes {
			kit[p*Takes+t] = mixer.Sample{Samples: samples, Place: pl.Turned(mix.pan, mixer.Gain(mix.dB), mix.send), Choke: mix.choke}
		}
	}
	return kit, nil
}
