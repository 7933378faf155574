package neck_test

import (
	"fmt"

	"heddle/neck"
	"heddle/pitch"
)

// The minor pentatonic on two roots a semitone apart, near the tenth fret.
func Example() {
	minorPentatonic := pitch.Type{Name: "minor pentatonic", Degrees: []pitch.Degree{
		{Number: 1}, {Number: 3, Alter: -1}, {Number: 4}, {Number: 5}, {Number: 7, Alter: -1},
	}}
	home := pitch.NewScale(pitch.Name{Letter: pitch.G}, minorPentatonic)
	over := pitch.NewScale(pitch.Name{Letter: pitch.A, Accidental: -1}, minorPentatonic)

	pairs := neck.Near(neck.Guitar(), home, []pitch.Scale{over}, neck.DefaultReachMM)
	pair, ok := neck.Choose(pairs, 10)
	if !ok {
		fmt.Println("no placements lie near each other")
		return
	}
	for _, p := range append([]neck.Placement{pair.Home}, pair.Superimposed...) {
		fmt.Printf("%s: frets %d to %d, %s shape, root on string %d\n",
			p.Scale.Symbol(), p.Window.Low, p.Window.High, p.Shape, p.RootString)
	}
	fmt.Println(pair.Why)
	// Output:
	// G minor pentatonic: frets 10 to 13, A shape, root on string 5
	// A♭ minor pentatonic: frets 11 to 14, A shape, root on string 5
	// first finger moves up 1 fret (20 mm); 10–14 spans 75 mm; no shared spots
}

func ExampleParseTuning() {
	open, err := neck.ParseTuning("D2 A2 D3 G3 B3 E4", neck.Guitar())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("string 1:", open[0], "string 6:", open[5])
	open, err = neck.ParseTuning("DADGAD", neck.Guitar())
	fmt.Println(neck.FormatTuning(open), err)
	// Output:
	// string 1: E4 string 6: D2
	// D2 A2 D3 G3 A3 D4 <nil>
}
