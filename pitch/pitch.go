package pitch

import (
	"math"
	"strconv"
)

// A Pitch is a name in a sounding octave of scientific pitch notation. The
// octave belongs to the letter: C♭5 sounds as B4 and is still C♭5.
type Pitch struct {
	Name   Name
	Octave int
}

// MIDI returns the pitch's key number; middle C (C4) is 60.
func (p Pitch) MIDI() int { return 12*(p.Octave+1) + p.Name.Letter.Class() + p.Name.Accidental }

// String returns the plain name and octave: "Cb5".
func (p Pitch) String() string { return p.Name.String() + strconv.Itoa(p.Octave) }

// Symbol returns the English name with music signs and the octave: "C♭5".
func (p Pitch) Symbol() string { return p.Name.Symbol() + strconv.Itoa(p.Octave) }

// MarshalText writes the plain name and octave.
func (p Pitch) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// Named returns the pitch with a name that sounds at a MIDI key. The name must
// have the key's pitch class.
func Named(n Name, midi int) Pitch {
	return Pitch{Name: n, Octave: (midi-n.Letter.Class()-n.Accidental)/12 - 1}
}

// Parse reads a pitch: a note name and an octave from −1 to 9, as in "F#3".
func Parse(s string) (Pitch, error) {
	n, rest, ok := cutName(s)
	if ok {
		if octave, err := strconv.Atoi(rest); err == nil && octave >= -1 && octave <= 9 {
			return Pitch{Name: n, Octave: octave}, nil
		}
	}
	return Pitch{}, &InputError{What: "pitch", Value: s, Want: "a note name and an octave, such as F5 or Bb3"}
}

// Frequency returns the frequency in Hz of a MIDI key, which need not be
// whole, in equal temperament at A4 = 440 Hz (ISO 16).
func Frequency(midi float64) float64 { return 440 * math.Exp2((midi-69)/12) }
