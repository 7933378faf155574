package hear

import (
	"bytes"
	"context"
	"fmt"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear/internal/synthetic"
)

func ExampleMarkTake() {
	ex, err := exercise.Build(exercise.Spec{
		Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	// A model guitar plays it, with a fret too many in the fifth note.
	var take []synthetic.Stroke
	for i, n := range ex.Notes {
		on := 0.4 + n.Start.Quarters()*60/84
		take = append(take, synthetic.Stroke{OnS: on, OffS: on + 30.0/84, Key: float64(n.Pitch.MIDI()), Level: 0.5})
		if i == 4 {
			take[i].Key++
		}
	}
	recording := synthetic.WAV(synthetic.Pluck(take, 4, 44100), 44100)

	source, err := audio.Decode(bytes.NewReader(recording))
	if err != nil {
		fmt.Println(err)
		return
	}
	report, err := MarkTake(context.Background(), source, ex, TakeOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range report.Marks {
		fmt.Printf("%v %s\n", ex.Notes[m.Index].Pitch, m.Verdict)
	}
	fmt.Printf("%d right at %.0f\n", report.Summary.Right, report.Tempo)
	fmt.Println(report.Advice[0])
	// Output:
	// F5 right
	// D5 right
	// C5 right
	// Eb5 right
	// Db5 wrong
	// Cb5 right
	// 5 right at 84
	// Note 5 is the D♭5 on string 2: you played it a fret too high.
}
