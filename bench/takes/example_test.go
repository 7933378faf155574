package takes_test

import (
	"bytes"
	"fmt"
	"os"
	"time"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/hear"
)

// A recording is kept, and found again by its name.
func Example() {
	data, err := os.MkdirTemp("", "example")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(data)
	ex, _ := exercise.Build(exercise.Spec{Home: "A minor pentatonic"})
	samples := make([]float32, 3*48000) // a rest of three seconds
	source, _ := audio.Decode(bytes.NewReader(audiotest.WAV(48000, samples)))

	folder := takes.In(data)
	taken := time.Date(2026, 7, 16, 20, 22, 11, 0, time.UTC)
	draft, err := folder.Draft(taken)
	if err != nil {
		panic(err)
	}
	defer draft.Drop()
	if err := draft.Record(source); err != nil {
		panic(err)
	}
	name, err := draft.Keep(&takes.Take{
		Taken: taken, Spec: ex.Spec, Sentence: ex.Sentence, Written: takes.Keys(ex),
		Report: hear.Mark(nil, 0, ex, hear.TakeOptions{}),
	})
	if err != nil {
		panic(err)
	}

	take, err := folder.Open(name)
	fmt.Println(name, take.LengthS, take.Report.Summary.Missed == len(ex.Notes), err)
	// Output: 20260716-202211 3 true <nil>
}
