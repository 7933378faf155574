package neck

import (
	"fmt"
	"math"
	"strconv"

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

// Limits of an instrument. Scale lengths range from the smallest ukuleles to
// double basses; pitches are such that every fret of every string is a MIDI key.
const (
	maxStrings = 12
	maxFrets   = 36
	minScaleMM = 200
	maxScaleMM = 1200
	lowestOpen = 12 // MIDI, C0
	highOpen   = 88 // MIDI, E6
)

// Lowest returns the lowest pitch of the open strings without the capo.
func (in Instrument) Lowest() pitch.Pitch {
	lowest := in.Open[0]
	for _, p := range in.Open[1:] {
		if p.MIDI() < lowest.MIDI() {
			lowest = p
		}
	}
	return lowest
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

// widthMM returns the distance in mm from one fret to a higher one.
func (in Instrument) widthMM(low, high int) float64 { return in.FretMM(high) - in.FretMM(low) }

// Check returns an error for the first thing wrong with the instrument. It must
// have 1 to 12 strings tuned from C0 to E6, 1 to 36 frets, a scale length of 200
// to 1200 mm, and a capo below the last fret.
func (in Instrument) Check() error {
	if n := in.Strings(); n < 1 || n > maxStrings {
		return &pitch.InputError{What: "tuning", Value: FormatTuning(in.Open), Want: fmt.Sprintf("1 to %d strings, not %d", maxStrings, n)}
	}
	for _, p := range in.Open {
		if err := checkOpen(p); err != nil {
			return err
		}
	}
	switch {
	case in.Frets < 1 || in.Frets > maxFrets:
		return &pitch.InputError{What: "frets", Value: strconv.Itoa(in.Frets), Want: fmt.Sprintf("1 to %d", maxFrets)}
	case !(in.ScaleMM >= minScaleMM && in.ScaleMM <= maxScaleMM): // so that NaN is refused
		return &pitch.InputError{What: "scale", Value: fmt.Sprint(in.ScaleMM), Want: fmt.Sprintf("a scale length of %d to %d mm", minScaleMM, maxScaleMM)}
	case in.Capo < 0 || in.Capo >= in.Frets:
		return &pitch.InputError{What: "capo", Value: strconv.Itoa(in.Capo), Want: fmt.Sprintf("0 for none, or a fret below the last one, %d", in.Frets)}
	}
	return nil
}

// checkOpen returns an error for an open string outside the range of fretted
// instruments.
func checkOpen(p pitch.Pitch) error {
	if midi := p.MIDI(); midi < lowestOpen || midi > highOpen {
		return &pitch.InputError{What: "tuning", Value: p.String(), Want: "open strings from C0 to E6"}
	}
	return nil
}
