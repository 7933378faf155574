package musicxml

import (
	"heddle/exercise"
	"heddle/finger"
	"heddle/notefile/sheet"
)

// A joint says how the fretting hand joins a note to its neighbours.
type joint struct {
	From, To      finger.Stroke // how the note and the next one are reached; legato strokes only
	Opens, Closes bool          // the slur begins or ends here
	FromNo, ToNo  string        // MusicXML's numbers, which tell neighbouring slurs apart
}

// jointsOf finds how the notes of a line are joined. A run of legato notes and
// the picked note before it share one slur. A legato stroke on the first note
// has nothing to come from and is left out.
func jointsOf(notes []exercise.Note) []joint {
	joints := make([]joint, len(notes))
	for i := 1; i < len(notes); i++ {
		if !sheet.Legato(notes[i].Stroke) {
			continue
		}
		number := "1"
		if joints[i-1].FromNo == "1" {
			number = "2"
		}
		before, here := &joints[i-1], &joints[i]
		before.To, before.ToNo = notes[i].Stroke, number
		here.From, here.FromNo = notes[i].Stroke, number
		before.Opens = before.From == ""
		here.Closes = i+1 == len(notes) || !sheet.Legato(notes[i+1].Stroke)
	}
	return joints
}
