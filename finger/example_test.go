package finger_test

import (
	"fmt"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
)

// A minor pentatonic in fifth position, falling over two strings.
func ExampleAssign() {
	guitar := neck.Guitar()
	var notes []finger.Note
	for i, spot := range []neck.Spot{{String: 1, Fret: 8}, {String: 1, Fret: 5}, {String: 2, Fret: 8}, {String: 2, Fret: 5}} {
		notes = append(notes, finger.Note{
			Start:    line.Beat(i) * line.Quarter / 2,
			Duration: line.Quarter / 2,
			MIDI:     guitar.MIDI(spot),
			Spots:    []neck.Spot{spot},
		})
	}
	played, hand, err := finger.Assign(guitar, notes, finger.Technique{Picking: finger.Legato})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range played {
		fmt.Printf("string %d, fret %d, finger %d, %s\n", f.String, f.Fret, f.Finger, f.Stroke)
	}
	fmt.Printf("travel %.0f mm, widest %.0f mm, %d crossing\n", hand.TravelMM, hand.WidestMM, hand.Crossings)
	// Output:
	// string 1, fret 8, finger 4, down
	// string 1, fret 5, finger 1, pull-off
	// string 2, fret 8, finger 4, up
	// string 2, fret 5, finger 1, pull-off
	// travel 0 mm, widest 77 mm, 1 crossing
}
