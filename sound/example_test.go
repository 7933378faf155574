package sound_test

import (
	"bytes"
	"context"
	"fmt"

	"heddle/audio"
	"heddle/exercise"
	"heddle/sound"
)

// A line is written as a WAV file, and its timeline says where each note
// sounds.
func ExampleRender() {
	ex, err := exercise.Build(exercise.Spec{
		Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"},
		Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 4,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	wav, err := audio.NewWAV(&file, audio.Bits16, audio.Tags{Title: ex.Sentence, Tempo: ex.Tempo})
	if err != nil {
		fmt.Println(err)
		return
	}
	o := sound.DefaultOptions()
	o.Vamp, o.Voice = sound.FunkVamp, true
	line, err := sound.Render(context.Background(), ex, o, wav)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range line.Notes[:3] {
		fmt.Printf("%s sounds at sample %d\n", ex.Notes[n.Index].Pitch, n.Start)
	}
	fmt.Printf("%.1f s in %.1f MB\n", float64(line.Samples)/float64(line.SampleRate), float64(file.Len())/1e6)
	// Output:
	// F5 sounds at sample 137143
	// D5 sounds at sample 154286
	// C5 sounds at sample 171429
	// 16.8 s in 3.2 MB
}
