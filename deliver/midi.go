package deliver

import (
	"math"

	"heddle/notefile"
	"heddle/notefile/midi"
	"heddle/sound"
)

// Channels of the band, counted from 0, and the bass's General MIDI program (33,
// fingered electric bass).
const (
	bassChannel = 2
	drumChannel = 9
	bassProgram = 33
)

// writeMIDI writes the line with the bass and drums that the same choices let sound.
func writeMIDI(j job) error {
	bass, drums, err := sound.Accompaniment(j.exercise, j.choices.Sound)
	if err != nil {
		return err
	}
	var band []midi.Part
	for _, part := range []midi.Part{
		{Name: "Bass", Channel: bassChannel, Program: bassProgram, Notes: partNotes(bass)},
		{Name: "Drums", Channel: drumChannel, Notes: partNotes(drums)},
	} {
		if len(part.Notes) > 0 {
			band = append(band, part)
		}
	}
	return notefile.WriteMIDI(j.to, j.exercise, band...)
}

func partNotes(played []sound.Played) []midi.PartNote {
	notes := make([]midi.PartNote, len(played))
	for i, p := range played {
		notes[i] = midi.PartNote{At: p.At, End: p.End, Key: p.Key, Velocity: int(math.Round(127 * p.Force))}
	}
	return notes
}
