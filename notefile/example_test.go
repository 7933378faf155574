package notefile_test

import (
	"bytes"
	"fmt"
	"os"

	"heddle/exercise"
	"heddle/notefile"
)

// A line goes out as MusicXML, and comes back from it as another program's
// would.
func Example() {
	ex, err := exercise.Build(exercise.Spec{
		Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Bars: 1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	if err := notefile.WriteMusicXML(&file, ex); err != nil {
		fmt.Println(err)
		return
	}
	line, err := notefile.Read("line.musicxml", &file, "")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(line.Title)
	for _, n := range line.Notes {
		fmt.Printf("beat %v: %s, string %d, fret %d\n", n.Start, n.Pitch.Symbol(), n.String, n.Fret)
	}
	// Output:
	// G minor pentatonic with A♭ minor pentatonic over Gm7
	// beat 0: F5, string 1, fret 13
	// beat 0.5: D5, string 1, fret 10
	// beat 1: C5, string 2, fret 13
	// beat 1.5: E♭5, string 1, fret 11
	// beat 2: D♭5, string 2, fret 14
	// beat 2.5: C♭5, string 2, fret 12
}

func ExampleWriteVTT() {
	ex, err := exercise.Build(exercise.Spec{Home: "A minor pentatonic", Fret: 5, Value: "quarter", Bars: 1, Tempo: 90, Groups: []int{4}})
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := notefile.WriteVTT(os.Stdout, ex, 0); err != nil {
		fmt.Println(err)
	}
	// Output:
	// WEBVTT
	//
	// NOTE A minor pentatonic over Am7
	//
	// group-0
	// 00:00:00.000 --> 00:00:02.667 line:-2
	// <c.home>A minor pentatonic</c>
	//
	// note-0
	// 00:00:00.000 --> 00:00:00.667 line:-1
	// <c.home>C</c>
	//
	// note-1
	// 00:00:00.667 --> 00:00:01.333 line:-1
	// <c.home>A</c>
	//
	// note-2
	// 00:00:01.333 --> 00:00:02.000 line:-1
	// <c.home>G</c>
	//
	// note-3
	// 00:00:02.000 --> 00:00:02.667 line:-1
	// <c.home>E</c>
}
