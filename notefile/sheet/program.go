package sheet

import (
	"strings"

	"heddle/neck"
)

// LineChannel is the line's MIDI channel, counted from 0.
const LineChannel = 0

// General MIDI programs counted from 0 (General MIDI 1 sound set).
const (
	nylonGuitar = 24
	steelGuitar = 25
	cleanGuitar = 27
	fingerBass  = 33
)

// Program returns the General MIDI program for an instrument: by its name if it is one of
// these, otherwise by its clef.
func Program(in neck.Instrument) int {
	name := strings.ToLower(in.Name)
	switch {
	case strings.Contains(name, "bass"):
		return fingerBass
	case strings.Contains(name, "ukulele"):
		return nylonGuitar
	case strings.Contains(name, "mandolin"):
		return steelGuitar
	case in.Clef().Bass:
		return fingerBass
	}
	return cleanGuitar
}
