package notefile

import (
	"heddle/exercise"
	"heddle/finger"
)

// A joint is how a note is joined to its neighbours by the fretting hand.
type joint struct {
	From, To      finger.Stroke // how it is reached, how the next one is; legato strokes only
	Opens, Closes bool          // the slur begins, ends here
	FromNo, ToNo  string        // MusicXML's number, so that neighbours are told apart
}

// legato reports whether a stroke is the fretting hand's own.
func legato(s finger.Stroke) bool {
	return s == finger.HammerOn || s == finger.PullOff || s == finger.Slide
}

// jointsOf finds how the notes of a line are joined. A run of legato notes
// stands under one slur with the note that was picked before it. A legato
// stroke on the first note has nothing to come from and is left out.
func jointsOf(notes []exercise.Note) []joint {
	joints := make([]joint, len(notes))
	for i := 1; i < len(notes); i++ {
		if !legato(notes[i].Stroke) {
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
		here.Closes = i+1 == len(notes) || !legato(notes[i+1].Stroke)
	}
	return joints
}
