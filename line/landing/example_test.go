package landing_test

import (
	"fmt"
	"strings"

	"heddle/line"
	"heddle/line/landing"
	"heddle/neck"
	"heddle/pitch"
)

// F5 D5 C5 B♭4 of G minor pentatonic near fret 10, led to the third of Gm7 on the
// next bar line.
func ExampleFind() {
	guitar := neck.Guitar()
	home, err := pitch.ParseScale("G minor pentatonic")
	if err != nil {
		fmt.Println(err)
		return
	}
	pair, _ := neck.Choose(neck.Near(guitar, home, nil, neck.DefaultReachMM), 10)
	rhythm := line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}
	sections := []line.Section{{Sources: []line.Source{{Scale: home, Placement: pair.Home, Size: 4}}}}
	notes, err := line.Build(line.Request{Sections: sections, Direction: line.Down, Follow: line.FollowFirst, Repeats: line.KeepRepeats, Rhythm: rhythm})
	if err != nil {
		fmt.Println(err)
		return
	}
	endings := landing.Find(landing.Request{
		Line: notes[:4], Sections: sections, Instrument: guitar, Rhythm: rhythm,
		Goals: []landing.Goal{{
			At:      4 * line.Quarter,
			Targets: []landing.Target{{Name: pitch.Name{Letter: pitch.B, Accidental: -1}, Degree: pitch.Degree{Number: 3, Alter: -1}}},
			Chord:   []int{7, 10, 2, 5}, // G B♭ D F
		}},
	})
	for _, e := range endings {
		var names []string
		for _, n := range e.Notes {
			names = append(names, n.Pitch.String())
		}
		fmt.Printf("%s: %s\n", e.Kind, strings.Join(names, " "))
	}
	// Output:
	// enclosed from above: B4 C5 A4 Bb4
	// down the scale: G4 F4 D4 C4 Bb3
	// enclosed from below: Ab4 G4 A4 Cb5 Bb4
	// leap and fill: G4 A4 Bb4
	// by two semitones: G4 G#4 A4 Bb4
	// by the chord's arpeggio: G4 F4 D4 Cb4 Bb3
	// anticipated by an eighth: D5 C5 Cb5 Bb4
}
