package sound

import (
	"strings"

	"heddle/neck"
	"heddle/sound/pluck"
)

// A Tone is what the line is played on. The empty Tone is the one that suits
// the exercise's instrument, see ToneFor.
type Tone string

// The tones.
const (
	ElectricClean  Tone = "electric clean"
	ElectricDriven Tone = "electric driven"
	SteelAcoustic  Tone = "steel acoustic"
	NylonGuitar    Tone = "nylon"
	BassGuitar     Tone = "bass guitar"
	Ukulele        Tone = "ukulele"
	Mandolin       Tone = "mandolin"
)

// Tones returns every tone.
func Tones() []Tone {
	return []Tone{ElectricClean, ElectricDriven, SteelAcoustic, NylonGuitar, BassGuitar, Ukulele, Mandolin}
}

// ParseTone reads a tone's name; hyphens may stand for spaces.
func ParseTone(s string) (Tone, error) {
	i, err := choose("tone", s, typed(Tones()))
	if err != nil {
		return "", err
	}
	return Tones()[i], nil
}

// Between these lengths a neck is a guitar's: basses begin near 760 mm (short
// scale), small instruments end near 500 mm (common practice).
const (
	longNeckMM  = 740
	shortNeckMM = 520
)

// ToneFor chooses the tone of an instrument, by its name where the name says
// it, else by the length of its strings.
func ToneFor(in neck.Instrument) Tone {
	name := strings.ToLower(in.Name)
	switch {
	case strings.Contains(name, "bass"):
		return BassGuitar
	case strings.Contains(name, "ukulele"):
		return Ukulele
	case strings.Contains(name, "mandolin"):
		return Mandolin
	case in.ScaleMM >= longNeckMM:
		return BassGuitar
	case in.ScaleMM > 0 && in.ScaleMM < shortNeckMM:
		return Ukulele
	}
	return ElectricClean
}

// strung returns the strings of a tone.
func (t Tone) strung() pluck.Strung {
	switch t {
	case ElectricDriven:
		return pluck.ElectricDriven
	case SteelAcoustic:
		return pluck.SteelAcoustic
	case NylonGuitar:
		return pluck.Nylon
	case BassGuitar:
		return pluck.BassGuitar
	case Ukulele:
		return pluck.Ukulele
	case Mandolin:
		return pluck.Mandolin
	}
	return pluck.ElectricClean
}
