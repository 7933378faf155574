package neck

// A Clef is how the notation staff of an instrument is read.
type Clef struct {
	Bass   bool // a bass clef; else treble
	Octave int  // octaves that the notes sound above where they are written
}

// Bounds on an instrument's open strings, as MIDI keys, that choose its clef.
const (
	// bassBelow is the key under which an instrument's highest string makes
	// it a bass: the guitar's fourth string (D3) is not, the top strings of
	// four-, five- and six-string basses (G2, C3) are.
	bassBelow = 50 // D3

	// trebleFrom is the key from which on an instrument's lowest string needs
	// no octave sign: ukulele (C4, G4) and mandolin (G3) sound as written.
	trebleFrom = 55 // G3
)

// Clef returns the clef of an instrument: treble an octave lower for guitars,
// bass an octave lower for basses, plain treble for what sounds as high as it
// is written (common practice). Without strings it is the guitar's.
func (in Instrument) Clef() Clef {
	low, high := 127, 0
	for _, open := range in.Open {
		low, high = min(low, open.MIDI()), max(high, open.MIDI())
	}
	switch {
	case in.Strings() > 0 && high < bassBelow:
		return Clef{Bass: true, Octave: -1}
	case in.Strings() > 0 && low >= trebleFrom:
		return Clef{}
	}
	return Clef{Octave: -1}
}
