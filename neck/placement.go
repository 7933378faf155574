package neck

import (
	"fmt"
	"slices"

	"heddle/pitch"
)

// A Place is one note of a placement: a spot and its pitch, with the scale's own
// name.
type Place struct {
	Spot
	Pitch pitch.Pitch
}

// A Placement is a run of consecutive tones of a scale across all strings
// under one hand, each pitch once. In a re-entrant tuning the run crosses the
// strings that rise in pitch, and the others double its notes.
type Placement struct {
	Scale   pitch.Scale
	Window  Window
	Places  []Place // from the lowest pitch to the highest
	Doubled []Place // the run's notes that lie in the window on other strings too

	// RootString is the string of the placement's lowest root, and RootFinger
	// its finger (0 open, 1 to 4) with one finger per fret. Both are 0 for a run
	// without a root.
	RootString int
	RootFinger int

	// Shape is the open chord shape (E, A, D, C or G) that a pentatonic or
	// seven-note placement grows from (common practice), or "" if it has none.
	Shape string

	// System is the layout of the notes on the strings.
	System string
}

// The systems.
const (
	// twoPerString is the usual layout of a pentatonic.
	twoPerString = "two on each string"
	// threePerString is one of the two usual layouts of a seven-note scale.
	threePerString = "three on each string"
	// positional is the narrowest hand: two or three notes on each string for a
	// seven-note scale in fourths, otherwise any number.
	positional = "in position"
)

// A Window is a span of frets, both ends included.
type Window struct {
	Low, High int
}

// String returns the frets: "10–13".
func (w Window) String() string { return fmt.Sprintf("%d–%d", w.Low, w.High) }

// FirstFinger returns the fret of the first finger: the lowest stopped fret, or 0
// if all strings are open.
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

// AllPlaces returns the places of the run and those that double it.
func (p Placement) AllPlaces() []Place {
	if len(p.Doubled) == 0 {
		return p.Places
	}
	return slices.Concat(p.Places, p.Doubled)
}

// At returns the place of a MIDI key, if there is one.
func (p Placement) At(midi int) (Place, bool) {
	for _, place := range p.Places {
		if place.Pitch.MIDI() == midi {
			return place, true
		}
	}
	return Place{}, false
}

// fits reports whether the hand can hold the whole placement: the distance
// from the first finger to the highest fret, to the nearest whole mm, is at
// most reachMM.
func (p Placement) fits(in Instrument, reachMM float64) bool {
	return reaches(in.widthMM(p.FirstFinger(), p.Window.High), reachMM)
}
