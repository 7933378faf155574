package score_test

import (
	"bytes"
	"fmt"

	"heddle/exercise"
	"heddle/score"
	"heddle/score/surface"
)

func Example() {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	for _, system := range score.Systems(ex, score.Options{Width: 180, Without: score.Strokes | score.Roughness}) {
		if err := surface.WriteSVG(&file, system); err != nil {
			fmt.Println(err)
			return
		}
	}
	fmt.Printf("%s, %d times\n", file.Bytes()[:4], bytes.Count(file.Bytes(), []byte("<svg")))
	// Output: <svg, 2 times
}
