package line_test

import (
	"fmt"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// Threes from G minor pentatonic and the same scale a semitone up, falling
// near fret 10, each group beside the last note of the one before.
func Example() {
	guitar := neck.Guitar()
	minorPentatonic := pitch.Type{Name: "minor pentatonic", Degrees: []pitch.Degree{
		{Number: 1}, {Number: 3, Alter: -1}, {Number: 4}, {Number: 5}, {Number: 7, Alter: -1},
	}}
	home := pitch.NewScale(pitch.Name{Letter: pitch.G}, minorPentatonic)
	out := pitch.NewScale(pitch.Name{Letter: pitch.A, Accidental: -1}, minorPentatonic)

	request := line.Request{
		Sections: []line.Section{{Sources: []line.Source{
			{Scale: home, Placement: startingAt(guitar, home, 10), Size: 3},
			{Scale: out, Placement: startingAt(guitar, out, 11), Size: 3},
		}}},
		Direction: line.Down,
		Follow:    line.FollowLast,
		Repeats:   line.KeepRepeats,
		Rhythm:    line.Rhythm{Value: line.Eighth, Meter: line.CommonTime},
	}
	notes, err := line.Build(request)
	if err != nil {
		fmt.Println(err)
		return
	}
	print(notes)
	fmt.Println(line.CycleOf([]int{3, 3}, request.Rhythm))

	// Output:
	// F5 D5 C5 | Cb5 Ab4 Gb4 | F4 D4 C4 | Cb4 Ab3 Gb3
	// {24 3}
}

// startingAt is the placement of a scale with the first finger at a fret.
func startingAt(in neck.Instrument, s pitch.Scale, fret int) neck.Placement {
	for _, p := range neck.Placements(in, s) {
		if p.FirstFinger() == fret {
			return p
		}
	}
	return neck.Placement{}
}

// print writes the names of the notes, a bar between groups.
func print(notes []line.Note) {
	for i, n := range notes {
		switch {
		case i > 0 && n.Group != notes[i-1].Group:
			fmt.Print(" | ")
		case i > 0:
			fmt.Print(" ")
		}
		fmt.Print(n.Pitch)
	}
	fmt.Println()
}

// A syncopation and a triplet, as they are written in 4/4.
func ExampleWrite() {
	notes := []line.Span{{Note: 0, Start: 0, End: 480}, {Note: 1, Start: 480, End: 2240}, {Note: 2, Start: 2240, End: 2560}}
	bars := line.Bars(line.CommonTime, 0, 2560)
	for _, w := range line.Write(line.CommonTime, bars, notes)[0] {
		fmt.Print("1/", 1<<w.Value.Halvings)
		if w.Value.Dots > 0 {
			fmt.Print(" dotted")
		}
		if w.Tuplet != nil {
			fmt.Printf(" in %d:%d", w.Tuplet.Actual, w.Tuplet.Normal)
		}
		if w.Note == line.Silence {
			fmt.Print(" rest")
		}
		if w.TieTo {
			fmt.Print(" tied on")
		}
		fmt.Println()
	}
	// Output:
	// 1/8
	// 1/4 dotted tied on
	// 1/8 in 3:2
	// 1/8 in 3:2
	// 1/8 in 3:2 rest
	// 1/4 rest
}
