package exercise_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"heddle/exercise"
	"heddle/pitch"
)

// Everything named moves by the same interval; distances stay as they are.
func TestASpecMovesToAnotherKey(t *testing.T) {
	for _, c := range []struct {
		spec exercise.Spec
		key  string
		want exercise.Spec
	}{
		{exercise.Spec{Home: "G minor pentatonic", Chord: "Gm7", Superimpose: []string{"semitone up", "Ab minor pentatonic"}, Start: "F5"}, "A",
			exercise.Spec{Home: "A minor pentatonic", Chord: "Am7", Superimpose: []string{"semitone up", "Bb minor pentatonic"}, Fret: 5}},
		{exercise.Spec{Home: "A blues", Changes: "A7 | D7/F# | %"}, "Eb", exercise.Spec{Home: "Eb blues", Changes: "Eb7 | Ab7/C | %", Fret: 5}},
		{exercise.Spec{Home: "A blues", Changes: "rhythm changes in A"}, "Bb", exercise.Spec{Home: "Bb blues", Changes: "rhythm changes in Bb", Fret: 5}},
		{exercise.Spec{Home: "D dorian", Changes: "Dm7 G7(b9,#11), Cmaj7", Superimpose: []string{"Eb dorian | E dorian", "tritone"}}, "E",
			exercise.Spec{Home: "E dorian", Changes: "Em7 A7(b9,#11), Dmaj7", Superimpose: []string{"F dorian | F# dorian", "tritone"}, Fret: 5}},
		{exercise.Spec{Home: "G minor pentatonic | C dorian", Changes: "Gm7 | Cm7"}, "E", exercise.Spec{Home: "E minor pentatonic | A dorian", Changes: "Em7 | Am7", Fret: 5}},
	} {
		key, err := pitch.ParseName(c.key)
		if err != nil {
			t.Fatal(err)
		}
		got, err := c.spec.Moved(key, 5)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s to %s: %s", c.spec.Home, c.key, diff)
		}
	}
}

// Common practice: five placements of a pentatonic in each octave, A minor's
// with their first fingers at frets 2, 5, 7, 9 and 12.
func TestAPentatonicHasFiveFrets(t *testing.T) {
	frets, err := exercise.FretsOf(exercise.Spec{Home: "A minor pentatonic"})
	if err != nil || !slices.Equal(frets, []int{2, 5, 7, 9, 12}) {
		t.Errorf("%v, %v", frets, err)
	}
}

func TestTheTwelveKeysAreNamedAsPlayersNameThem(t *testing.T) {
	keys, err := exercise.Spec{Home: "Gb minor pentatonic"}.Keys()
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, k := range keys {
		names = append(names, k.String())
	}
	if want := []string{"C", "C#", "D", "Eb", "E", "F", "Gb", "G", "G#", "A", "Bb", "B"}; !slices.Equal(names, want) {
		t.Errorf("%v, want %v", names, want)
	}
}
