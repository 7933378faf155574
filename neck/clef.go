package neck

// A Clef is the clef of an instrument's notation staff.
type Clef struct {
	Bass   bool // a bass clef; else treble
	Octave int  // octaves from the written to the sounding notes
}

// Limits for an instrument's open strings, as MIDI keys, that decide its clef.
const (
	// bassBelow: an instrument whose highest string is below it is a bass. The
	// top strings of basses are G2 or C3.
	bassBelow = 50 // D3

	// trebleFrom: an instrument whose lowest string is at least this high sounds
	// as written, like the ukulele (C4) and the mandolin (G3).
	trebleFrom = 55 // G3
)

// Clef returns the clef of an instrument: treble an octave lower for guitars,
// bass an octave lower for basses, plain treble for instruments that sound as
// written (common practice). Without strings it is the guitar's.
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
