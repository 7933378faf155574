package neck

import "heddle/pitch"

// A Place is one note of a placement: a spot and the pitch it sounds, named
// as the scale names it.
type Place struct {
	Spot
	Pitch pitch.Pitch
}

// A Placement is a run of consecutive tones of a scale across all strings
// under one hand, each pitch once.
type Placement struct {
	Scale  pitch.Scale
	Window Window
	Places []Place // from the lowest pitch to the highest

	// RootString is the string of the placement's lowest root and RootFinger
	// the finger (0 open, 1 to 4) that one finger per fret gives it.
	RootString int
	RootFinger int

	// Shape is the open chord shape (E, A, D, C or G) that a pentatonic or
	// seven-note placement grows from, in the trade's usual way; empty where
	// the trade has no word.
	Shape string

	// System says how the notes are laid out: "two on each string", "three on
	// each string" or "in position".
	System string
}

// A Window is a span of frets, both ends included.
type Window struct {
	Low, High int
}
