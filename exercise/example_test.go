package exercise_test

import (
	"fmt"

	"heddle/exercise"
)

func ExampleBuild() {
	ex, err := exercise.Build(exercise.Spec{
		Home:        "G minor pentatonic",
		Superimpose: []string{"semitone up"},
		Groups:      []int{3, 3},
		Fret:        10,
		Follow:      "last",
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range ex.Notes[:6] {
		fmt.Printf("%v string %d fret %d finger %d\n", n.Pitch, n.String, n.Fret, n.Finger)
	}
	fmt.Println(ex.Collection.Forte)
	// Output:
	// F5 string 1 fret 13 finger 4
	// D5 string 1 fret 10 finger 1
	// C5 string 2 fret 13 finger 4
	// Cb5 string 2 fret 12 finger 3
	// Ab4 string 3 fret 13 finger 4
	// Gb4 string 3 fret 11 finger 2
	// 10-5
}
