package main

import (
	"fmt"
	"io"
	"math/rand/v2"

	"heddle/exercise"
	"heddle/internal/phraserules"
	"heddle/line"
	"heddle/phrase"
)

// vamps are the requests whose five choices are compared.
var vamps = []exercise.Spec{
	{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10},
	{Home: "G dorian", Superimpose: []string{"semitone up"}, Groups: []int{4, 4}, Fret: 10},
	{Home: "A minor blues", Chord: "A7", Superimpose: []string{"tritone"}, Groups: []int{3, 3}, Fret: 5, Feel: "swing 2:1"},
	{Home: "C major", Changes: "Dm7 | G7 | Cmaj7 | %", Superimpose: []string{"G altered"}, Groups: []int{4, 4}, Fret: 7},
	{Home: "C minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Meter: "12/8", Fret: 8},
}

// writePhrases writes the tables of the phrases.
func writePhrases(w io.Writer, requests int) {
	random := rand.New(rand.NewPCG(5, 6))
	built, broken, notes := 0, 0, tally{}
	for range requests {
		ex, err := exercise.Build(phraserules.Request(random))
		if err != nil {
			continue
		}
		built++
		if len(phraserules.Broken(ex)) > 0 {
			broken++
		}
		notes.add(readBack(ex))
	}
	fmt.Fprintf(w, "| requests | with a phrase | rules broken in | notes read right | exact |\n| ---: | ---: | ---: | ---: | ---: |\n")
	fmt.Fprintf(w, "| %d | %d | %d | %.1f %% | %.1f %% |\n\n", requests, built, broken, percent(notes.right, notes.notes), percent(notes.exact, notes.notes))
	fmt.Fprintf(w, "| phrase | busy | choices | least difference | mean difference |\n| --- | --- | ---: | ---: | ---: |\n")
	for _, spec := range vamps {
		for _, busy := range []string{"sparse", "medium", "busy"} {
			spec.Form, spec.Busy = "phrase", busy
			count, least, mean := compare(spec)
			fmt.Fprintf(w, "| %s, %s | %s | %d | %.0f %% | %.0f %% |\n", spec.Home, spec.Superimpose[0], busy, count, 100*least, 100*mean)
		}
	}
}

// compare returns how many of five choices there are and how much they differ.
func compare(spec exercise.Spec) (count int, least, mean float64) {
	var lines [][]line.Note
	for choice := 1; choice <= 5; choice++ {
		spec.Choice = choice
		ex, err := exercise.Build(spec)
		if err != nil {
			break
		}
		notes := make([]line.Note, len(ex.Notes))
		for i, n := range ex.Notes {
			notes[i] = n.Note
		}
		lines = append(lines, notes)
	}
	least = 1
	pairs := 0
	for i := range lines {
		for j := range i {
			d := phrase.Difference(lines[i], lines[j])
			least, mean, pairs = min(least, d), mean+d, pairs+1
		}
	}
	return len(lines), least, mean / float64(max(1, pairs))
}
