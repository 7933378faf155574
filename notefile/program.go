package notefile

import (
	"strings"

	"heddle/neck"
)

// lineChannel and chordChannel are MIDI channels counted from 0.
const (
	lineChannel  = 0
	chordChannel = 1
)

// General MIDI programs counted from 0 (General MIDI 1 sound set).
const (
	nylonGuitar  = 24
	steelGuitar  = 25
	cleanGuitar  = 27
	fingerBass   = 33
	electricKeys = 4
)

// programOf returns the program an instrument's line is played on: by its
// name where that says enough, else by how it is read.
func programOf(in neck.Instrument) int {
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
