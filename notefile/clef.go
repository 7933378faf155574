package notefile

import "heddle/neck"

// A clef is how the notation staff of an instrument is read.
type clef struct {
	Sign   string
	Line   int
	Octave int // octaves that the notes sound above where they are written
}

const (
	// bassBelow is the key under which an instrument's highest string makes
	// it a bass: the low E of a guitar's fourth string is above it, the top
	// string of four-, five- and six-string basses (G2, C3) below.
	bassBelow = 50 // D3

	// trebleFrom is the key from which on an instrument's lowest string needs
	// no octave sign: ukulele (C4, G4) and mandolin (G3) sound as written.
	trebleFrom = 55 // G3
)

// clefOf returns the clef of an instrument: treble an octave lower for
// guitars, bass an octave lower for basses, plain treble for what sounds as
// high as it is written (common practice).
func clefOf(in neck.Instrument) clef {
	low, high := 127, 0
	for _, open := range in.Open {
		low, high = min(low, open.MIDI()), max(high, open.MIDI())
	}
	switch {
	case high < bassBelow:
		return clef{Sign: "F", Line: 4, Octave: -1}
	case low >= trebleFrom:
		return clef{Sign: "G", Line: 2}
	}
	return clef{Sign: "G", Line: 2, Octave: -1}
}
