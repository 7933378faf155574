package practice

import (
	"time"

	"heddle/exercise"
)

// Demo returns three items to begin with, of an invented workshop that works on
// a slow vamp in G minor and a blues in A.
func Demo(now time.Time) []Item {
	vamp := exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 92, Land: "third"}
	cell := vamp
	cell.Cut, cell.Land = "3-8", ""
	item := func(uid string, kind Kind, title string, spec exercise.Spec, scope Scope) Item {
		return Item{UID: "demo-" + uid, Kind: kind, Title: title, Spec: spec, Tags: []string{"workshop"}, Made: now, From: "the demo", Scope: scope}
	}
	return []Item{
		item("vamp", Line, "Thursday's vamp: threes, a semitone out", vamp, Common),
		item("cell", Cell, "Six notes out and back", cell, Keys),
		item("blues", Line, "Blues in A with the tritone", exercise.Spec{Chord: "A7", Home: "A blues", Superimpose: []string{"tritone"}, Groups: []int{3, 2}, Fret: 5, Tempo: 80, Land: "root"}, Places),
	}
}
