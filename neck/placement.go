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
	// the finger (0 open, 1 to 4) that one finger per fret gives it. Both are
	// 0 for a run so short that it has no root.
	RootString int
	RootFinger int

	// Shape is the open chord shape (E, A, D, C or G) that a pentatonic or
	// seven-note placement grows from, in the trade's usual way; empty where
	// the trade has no word.
	Shape string

	// System says how the notes are laid out.
	System string
}

// The systems.
const (
	// TwoPerString is the usual layout of a pentatonic.
	TwoPerString = "two on each string"
	// ThreePerString is one of the two usual layouts of a seven-note scale.
	ThreePerString = "three on each string"
	// InPosition is the narrowest hand: two or three on each string for a
	// seven-note scale in fourths, as it falls otherwise.
	InPosition = "in position"
)

// A Window is a span of frets, both ends included.
type Window struct {
	Low, High int
}

// FirstFinger returns the fret of the first finger: the lowest stopped fret.
// An open-string placement has it above the nut; only one played wholly on
// open strings returns 0.
func (p Placement) FirstFinger() int {
	if p.Window.Low > 0 {
		return p.Window.Low
	}
	first := 0
	for _, place := range p.Places {
		if place.Fret > 0 && (first == 0 || place.Fret < first) {
			first = place.Fret
		}
	}
	return first
}

// At returns the place that sounds the MIDI key, and whether there is one.
func (p Placement) At(midi int) (Place, bool) {
	for _, place := range p.Places {
		if place.Pitch.MIDI() == midi {
			return place, true
		}
	}
	return Place{}, false
}

// Fits reports whether the hand can hold the whole placement: the distance
// from the first finger to the highest fret, to the nearest whole mm, is at
// most reachMM.
func (p Placement) Fits(in Instrument, reachMM float64) bool {
	return reaches(in.WidthMM(p.FirstFinger(), p.Window.High), reachMM)
}
