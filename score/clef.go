package score

import (
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/surface"
)

// A clef places pitches on the staff.
type clef struct {
	sign   surface.Sign
	line   float64 // where the sign's origin stands, in staff spaces from the top line
	middle int     // diatonic number of the sounding pitch on the middle line
	spoken string  // for the description
}

// diatonic numbers the staff places: 7 to the octave, C0 is 0.
func diatonic(letter pitch.Letter, octave int) int { return 7*octave + int(letter) }

// clefOf draws the clef of an instrument.
func clefOf(in neck.Instrument) clef {
	switch c := in.Clef(); {
	case c.Bass:
		return clef{surface.BassClefOctave, 1, diatonic(pitch.D, 2), "bass clef sounding an octave lower"}
	case c.Octave == 0:
		return clef{surface.TrebleClef, 3, diatonic(pitch.B, 4), "treble clef"}
	}
	return clef{surface.TrebleClefOctave, 3, diatonic(pitch.B, 3), "treble clef sounding an octave lower"}
}

// place returns a sounding pitch's staff place: steps above the middle line.
func (c clef) place(p pitch.Pitch) int { return diatonic(p.Name.Letter, p.Octave) - c.middle }

// The staff in staff spaces from its top line.
const (
	staffHeight = 4.0
	middleLine  = 2.0
)

// placeY returns where a staff place lies.
func placeY(place int) float64 { return middleLine - float64(place)/2 }

// ledgers returns where the ledger lines of a note lie, from the staff
// outward.
func (l *layout) ledgers(note int) []float64 {
	place := l.clef.place(l.exercise.Notes[note].Pitch)
	var lines []float64
	for p := 6; p <= place; p += 2 {
		lines = append(lines, placeY(p))
	}
	for p := -6; p >= place; p -= 2 {
		lines = append(lines, placeY(p))
	}
	return lines
}

// headSign returns the notehead of a value.
func headSign(v line.NoteValue) surface.Sign {
	switch {
	case v.Halvings <= 0:
		return surface.NoteheadWhole
	case v.Halvings == 1:
		return surface.NoteheadHalf
	}
	return surface.NoteheadBlack
}

// restSign returns the sign of a rest.
func (l *layout) restSign(e line.Written) surface.Sign {
	if e.WholeBar {
		return surface.RestWhole
	}
	return surface.RestWhole + surface.Sign(e.Value.Halvings)
}

// finalBarWidth returns the width of the last bar line, with its repeat dots.
func (l *layout) finalBarWidth() float64 {
	e := surface.Engraving()
	w := e.ThinBar + e.BarSeparation + e.ThickBar
	if l.options.Repeat {
		w += e.RepeatDots + surface.RepeatDots.Width()
	}
	return w
}
