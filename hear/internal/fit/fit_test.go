package main

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"heddle/hear/internal/listen"
	"heddle/hear/internal/performance"
)

// A fitted classifier tells what no single feature tells: here, which of two is
// greater.
func TestFitFindsWhatTellsNotes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	var all []example
	for range 4000 {
		var e example
		for i := range e.features {
			e.features[i] = float32(r.NormFloat64())
		}
		if e.features[3] > e.features[20] {
			e.note = 1
		}
		all = append(all, e)
	}
	c := fit(all)
	wrong := 0
	for _, e := range all {
		if (c.LogOdds(&e.features) > 0) != (e.note == 1) {
			wrong++
		}
	}
	if wrong > len(all)/20 {
		t.Errorf("%d of %d examples are classified wrongly", wrong, len(all))
	}
	var back listen.Classifiers
	if file, err := weightsFile(listen.Classifiers{Whole: *c, Early: *c}); err != nil || json.Unmarshal(file, &back) != nil || back.Whole != *c || back.Early != *c {
		t.Errorf("the weights do not come back from their file: %v", err)
	}
}

// Of two moments that show the same note, the likelier is the note and the other is
// left out; everything else is not a note.
func TestCandidatesAreLabelled(t *testing.T) {
	tk := performance.Take{Played: []performance.Note{{OnS: 1, Key: 60}, {OnS: 1.5, Key: 64}}, Cents: 20}
	candidate := func(midi, logOdds float64) listen.Candidate {
		c := listen.Candidate{MIDI: midi, LogOdds: logOdds}
		c.Features[0] = float32(midi)
		return c
	}
	moments := []listen.Moment{
		{OnsetS: 0.5, Candidates: []listen.Candidate{candidate(60.2, 2)}}, // a count-in, given several times
		{OnsetS: 1.01, Candidates: []listen.Candidate{candidate(60.3, 3), candidate(72.2, 1)}},
		{OnsetS: 1.04, Candidates: []listen.Candidate{candidate(60.2, 1)}}, // the same note again
		{OnsetS: 1.5, Candidates: []listen.Candidate{candidate(64.9, 3)}},  // 70 cents off
	}
	var got strings.Builder
	for _, e := range label(tk, moments) {
		got.WriteString(map[float32]string{0: ".", 1: "n"}[e.note])
		if math.Abs(float64(e.features[0])-60.2) < 1e-5 && e.moment == 2 {
			t.Error("the weaker moment of a note is kept")
		}
	}
	if want := strings.Repeat(".", introTimes) + "n" + "." + "."; got.String() != want {
		t.Errorf("labelled %s, want %s", &got, want)
	}
}
