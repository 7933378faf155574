package neck

import (
	"math"

	"heddle/pitch"
)

// An Instrument is a fretted neck as the player has set it up.
type Instrument struct {
	Name    string
	Open    []pitch.Pitch // open strings without the capo, string 1 first
	Frets   int           // frets on the neck, counted from the nut
	ScaleMM float64       // vibrating length of the open string
	Capo    int           // the fret it sits behind; 0 for none
	Left    bool          // strung and drawn for a left-handed player
}

// A Spot is one fret of one string; fret 0 is open (or at the capo).
type Spot struct {
	String int
	Fret   int
}

// Strings returns the number of strings.
func (in Instrument) Strings() int { return len(in.Open) }

// LastFret returns the highest fret that can be stopped, counted from the
// capo.
func (in Instrument) LastFret() int { return in.Frets - in.Capo }

// MIDI returns the key that sounds at a spot.
func (in Instrument) MIDI(s Spot) int { return in.Open[s.String-1].MIDI() + in.Capo + s.Fret }

// FretMM returns the distance in mm from the nut to the fret, counted from
// the capo: L(1 − 2^(−n/12)), equal temperament.
func (in Instrument) FretMM(fret int) float64 {
	return in.ScaleMM * (1 - math.Exp2(-float64(fret+in.Capo)/12))
}

// Guitar returns a six-string guitar in standard tuning with 22 frets and a
// scale length of 648 mm.
func Guitar() Instrument {
	in := Instrument{Name: "guitar", Frets: 22, ScaleMM: 648}
	for _, s := range []string{"E4", "B3", "G3", "D3", "A2", "E2"} {
		p, err := pitch.Parse(s)
		if err != nil {
			panic(err)
		}
		in.Open = append(in.Open, p)
	}
	return in
}
