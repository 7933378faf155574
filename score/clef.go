package score

import (
	"heddle/line"
	"heddle/neck"
	"heddle/score/notation"
	"heddle/score/surface"
)

// A clef is the sign at the beginning of a staff.
type clef struct {
	sign   surface.Sign
	line   float64 // y of the sign's origin, in staff spaces from the top line
	spoken string  // for the description
}

// clefOf returns the clef of an instrument.
func clefOf(in neck.Instrument) clef {
	switch c := in.Clef(); {
	case c.Bass:
		return clef{surface.BassClefOctave, 1, "bass clef sounding an octave lower"}
	case c.Octave == 0:
		return clef{surface.TrebleClef, 3, "treble clef"}
	}
	return clef{surface.TrebleClefOctave, 3, "treble clef sounding an octave lower"}
}

// place returns a note's staff place, steps above the middle line; one under an
// octave line is written an octave lower than it sounds.
func (l *layout) place(note int) int {
	place := notation.Place(l.exercise.Instrument.Clef(), l.exercise.Notes[note].Pitch)
	if l.octaves[note] {
		place -= 7
	}
	return place
}

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
	place := l.place(note)
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
