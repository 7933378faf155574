package notefile

import (
	"fmt"
	"io"
	"sync"
	"testing"

	"heddle/exercise"
	"heddle/internal/need"
)

// built builds a spec that must be sound.
func built(t testing.TB, s exercise.Spec) *exercise.Exercise {
	t.Helper()
	ex, err := exercise.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// workedExample is the domain's: G minor pentatonic with A♭ minor pentatonic,
// threes, falling.
func workedExample() exercise.Spec {
	return exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 84}
}

// pick takes the i-th of a list, going round.
func pick[T any](list []T, i int) T { return list[i%len(list)] }

// sampleCount is how many exercises the outside checks go over.
const sampleCount = 200

// samples returns the sample exercises, built once: all of them with
// HEDDLE_ALL=1, otherwise and under the race detector every fifth. Tests only
// read them.
func samples(t testing.TB) []*exercise.Exercise {
	t.Helper()
	made, refused := builtSamples()
	if len(made) < sampleCount {
		t.Fatalf("%d exercises could be built, want %d; refused: %v", len(made), sampleCount, refused)
	}
	if need.All() && !raceDetector {
		return made
	}
	var some []*exercise.Exercise
	for i := 0; i < len(made); i += 5 {
		some = append(some, made[i])
	}
	return some
}

var builtSamples = sync.OnceValues(buildSamples)

// buildSamples builds many exercises that differ in everything a file has to carry.
// The lists have lengths without a common divisor where it matters, so that
// going round them in step meets many pairs.
func buildSamples() (made []*exercise.Exercise, refused map[string]int) {
	refused = map[string]int{}
	homes := []string{"G minor pentatonic", "A blues", "F# minor pentatonic", "C major", "Bb mixolydian", "E dorian", "Gb minor pentatonic", "D 1 b3 4 #5 b7", "Db melodic minor", "G# harmonic minor", "C# lydian"}
	over := [][]string{{"semitone up"}, {"tritone"}, nil, {"minor third up", "semitone up"}, {"Ab minor pentatonic"}, {"whole tone down"}, {"tritone", "semitone up", "major third up"}}
	orders := []string{"", "1 3 2", "", "", "3 2 1"}
	meters := []string{"4/4", "3/4", "5/4", "6/8", "7/8", "12/8", "2/2", "4/4", "9/8", "2/4", "5/8", "3/2", "15/16"}
	values := []string{"eighth", "eighth-triplet", "sixteenth", "quarter", "sixteenth-triplet", "quintuplet", "eighth"}
	pickups := []float64{0, 0.5, 0, 1, 1. / 3, 0.25, 0, 0.4, 0.75}
	gaps := []float64{0, 0, 0.5, 0.25, 0, 1, 0.1}
	feels := []string{"", "swing 2:1", "swing 58%", "", "swing 3:1"}
	instruments := []struct {
		name, tuning string
		capo         int
	}{
		{"guitar", "", 0}, {"guitar", "D2 A2 D3 G3 B3 E4", 2}, {"bass", "", 0}, {"guitar", "F#1 B1 E2 A2 D3 G3 B3 E4", 0}, {"ukulele", "", 0}, {"mandolin", "", 0}, {"bass", "B0 E1 A1 D2 G2 C3", 0},
	}
	lands := []string{"", "third", "root,fifth", "", "third"}
	for i := 0; len(made) < sampleCount && i < 5*sampleCount; i++ {
		s := exercise.Spec{
			Home: pick(homes, i), Superimpose: pick(over, i/2), Order: pick(orders, i), Meter: pick(meters, i), Value: pick(values, i/3),
			Pickup: pick(pickups, i), Gap: pick(gaps, i/5), Feel: pick(feels, i), Land: pick(lands, i/7), Tempo: 40 + float64(i*7%150),
			Direction: pick([]string{"down", "up", "down-up", "up-down"}, i/4), Follow: pick([]string{"first", "last"}, i/3),
			Touch:   pick([]string{"", "blues", "", "funk", "rock", "", "jazz", "bends, quarter bends, slides, vibrato, staccato", "ballad"}, i),
			Picking: pick([]string{"alternate", "legato", "economy"}, i), Names: pick([]string{"english", "german", "solfege"}, i/2),
		}
		if s.Touch != "" {
			s.Fret = 7 // near the nut few strings can be bent
		}
		in := pick(instruments, i/6)
		s.Instrument, s.Tuning, s.Capo = in.name, in.tuning, in.capo
		s.Groups = []int{3}
		for j := range s.Superimpose {
			s.Groups = append(s.Groups, 2+(i+j)%3)
		}
		if i%11 == 5 {
			s.Changes = "Gm7 C7 | Fmaj7 | % | Gm7 / / C7"
		}
		ex, err := exercise.Build(s)
		if err != nil {
			refused[err.Error()]++
			continue
		}
		made = append(made, ex)
	}
	return made, refused
}

// sampleName tells an exercise of samples in a message.
func sampleName(i int, ex *exercise.Exercise) string {
	return fmt.Sprintf("%d: %s", i, ex.Spec.Query())
}

// writers are the ways out.
var writers = []struct {
	name  string
	write func(io.Writer, *exercise.Exercise) error
}{{"MusicXML", WriteMusicXML}, {"MIDI", func(w io.Writer, ex *exercise.Exercise) error { return WriteMIDI(w, ex) }}, {"WebVTT", func(w io.Writer, ex *exercise.Exercise) error { return WriteVTT(w, ex, 0) }}, {"SubRip", func(w io.Writer, ex *exercise.Exercise) error { return WriteSRT(w, ex, 0) }}}
