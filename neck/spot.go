package neck

// A Spot is one fret of one string; fret 0 is open (or at the capo).
type Spot struct {
	String int
	Fret   int
}

// SpotsOf returns every spot for a MIDI key, string 1 first.
func (in Instrument) SpotsOf(midi int) []Spot {
	return in.SpotsIn(midi, Window{0, in.LastFret()})
}

// SpotsIn returns the spots for a MIDI key inside a window, string 1 first.
func (in Instrument) SpotsIn(midi int, window Window) []Spot {
	low, high := max(window.Low, 0), min(window.High, in.LastFret())
	var spots []Spot
	for i, open := range in.Open {
		if fret := midi - open.MIDI() - in.Capo; fret >= low && fret <= high {
			spots = append(spots, Spot{String: i + 1, Fret: fret})
		}
	}
	return spots
}
