package sheet

import (
	"fmt"

	"heddle/pitch"
)

// Tempos are in quarter notes a minute. The range is wider than the spec's, so
// that any tempo read from a file can be written again. The lower end is what
// the three bytes of microseconds in a MIDI file can hold.
const (
	slowestTempo = 4
	fastestTempo = 1000
)

// CheckTempo returns an error for a tempo that can't be written.
func CheckTempo(tempo float64) error {
	if tempo >= slowestTempo && tempo <= fastestTempo {
		return nil
	}
	return &pitch.InputError{What: "tempo", Value: fmt.Sprint(tempo), Want: "4 to 1000 quarter notes a minute"}
}
