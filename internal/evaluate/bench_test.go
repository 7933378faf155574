package main

import (
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

func BenchmarkRead64(b *testing.B) {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Direction: "down-up", Land: "third", Cut: "1-64"})
	if err != nil {
		b.Fatal(err)
	}
	notes := make([]line.Note, len(ex.Notes))
	for i, n := range ex.Notes {
		notes[i] = line.Note{Pitch: pitch.Named(pitch.PlainName(n.Pitch.MIDI()%12, true), n.Pitch.MIDI()), Start: n.Start, Duration: n.Duration}
	}
	for b.Loop() {
		weave.Read(weave.Request{Notes: notes})
	}
}
