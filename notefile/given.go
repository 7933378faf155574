package notefile

import (
	"heddle/exercise"
	"heddle/line"
)

// Given returns the imported line in the form that [exercise.Adopt] takes.
func (im Import) Given() exercise.Given {
	g := exercise.Given{
		Title: im.Title, Tempo: im.Tempo, Open: im.Open, Capo: im.Capo,
		Rhythm: line.Rhythm{Value: line.Eighth, Meter: im.Meter, Pickup: im.Pickup, Swing: im.Swing},
	}
	for _, n := range im.Notes {
		g.Notes = append(g.Notes, exercise.GivenNote(n))
	}
	for _, c := range im.Chords {
		g.Chords = append(g.Chords, exercise.GivenChord(c))
	}
	return g
}
