package pitch_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/pitch"
)

func knownAs(c pitch.Collection) string { return strings.Join(c.KnownAs(pitch.English), "; ") }

// What scales share is common practice: the modes of a major scale, and the
// few roots of the symmetrical scales.
func TestKnownAsNamesEachTypeOnce(t *testing.T) {
	for _, c := range []struct{ scale, want string }{
		{"C major", "C major; D dorian; G mixolydian; A natural minor; E phrygian; F lydian; B locrian"},
		{"C whole tone", "whole tone from C, D, E, F♯, G♯ or B♭"},
		{"C chromatic", "chromatic from any of them"},
		{"C octatonic half-whole", "octatonic half-whole from C, E♭, F♯ or A; octatonic whole-half from D♭, E, G or B♭"},
		{"C Messiaen mode 5", "Messiaen mode 5 from C or F♯"},
		{"C dorian b2", "E♭ lydian dominant; A altered; B♭ melodic minor; C dorian ♭2; D♭ lydian augmented; F mixolydian ♭6; G locrian ♯2"},
	} {
		if got := knownAs(pitch.Collect(mustScale(t, c.scale))); got != c.want {
			t.Errorf("%s is known as %s, want %s", c.scale, got, c.want)
		}
	}
}

// Common practice: intervals for two notes, chords with their inversions for three to
// six, the most common name first.
func TestNotesAreKnownByTheirMostCommonNameFirst(t *testing.T) {
	for _, row := range []struct{ notes, want string }{
		{"G D", "perfect fifth, G up to D; perfect fourth, D up to G"},
		{"C F#", "augmented fourth (tritone), C up to F♯; diminished fifth (tritone), F♯ up to C"},
		{"C Gb", "diminished fifth (tritone), C up to G♭; augmented fourth (tritone), G♭ up to C"},
		{"E G", "minor third, E up to G; major sixth, G up to E"},
		{"G G#", "augmented unison, G up to G♯; diminished octave, G♯ up to G"},
		{"C E G", "C; C major triad"},
		{"E G C", "C/E (first inversion); C major triad"},
		{"G C E", "C/G (second inversion); C major triad"},
		{"A C E G", "Am7; C6/A (third inversion)"},
		{"C E G A", "C6; Am7/C (first inversion)"},
		{"B D F G", "G7/B (first inversion); G dominant seventh arpeggio"},
		{"F G B D", "G7/F (third inversion); G dominant seventh arpeggio"},
		{"D G C", "Gsus4/D (second inversion)"},
		{"B D F A", "Bm7♭5; Dm6/B (third inversion)"},
		{"G B D F A", "G9"},
		{"G B F A E", "G13no5"},
		{"A D E F# C", "D9/A"},
		{"C E G B F# D", "Cmaj9♯11"},
		{"Ab Bb C Eb F", "A♭ major pentatonic; F minor pentatonic; A♭6/9"},
		{"F Ab Bb C Eb", "F minor pentatonic; A♭ major pentatonic; "},
		{"A C D Eb E G", "A minor blues; C major blues"},
	} {
		var names []pitch.Name
		for _, w := range strings.Fields(row.notes) {
			names = append(names, mustName(t, w))
		}
		if got := knownAs(pitch.CollectNames(names)); !strings.HasPrefix(got, row.want) {
			t.Errorf("%s is known as %s; want %s", row.notes, got, row.want)
		}
	}
}

// Any chord in any inversion is found under its own name, in the same notes; a chord
// over its root comes before its inversions of the same kind; names come most common
// first in every key.
func TestLawAChordIsFoundInEveryInversion(t *testing.T) {
	kinds := strings.Fields("m 7 m7 maj7 6 m6 dim aug sus4 sus2 m7b5 dim7 9 m9 maj9 add9 6/9 7sus4 7b9 7#9 13 m11 m(maj7) 7#5 7b5 maj7#11 7#11 9sus4 7alt")
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(append(kinds, "")).Draw(t, "kind")
		root := rapid.SampledFrom(strings.Fields("C C# Db D Eb E F F# Gb G Ab A Bb B")).Draw(t, "root")
		c, err := pitch.ParseChord(root + kind)
		if err != nil {
			t.Fatal(err)
		}
		notes := tones(c)
		turn := rapid.IntRange(0, len(notes)-1).Draw(t, "turn")
		notes = append(notes[turn:len(notes):len(notes)], notes[:turn]...)
		want := c.Name()
		if turn > 0 {
			want += "/" + notes[0].String()
		}
		got := pitch.CollectNames(notes).Names
		at := slices.IndexFunc(got, func(n pitch.CollectionName) bool { return n.Kind == pitch.ChordName && n.Name == want })
		if most := len(notes) <= 6; most != (at >= 0) {
			t.Fatalf("%v: %s is at %d of %v", notes, want, at, got)
		}
		for _, n := range got {
			if n.Kind != pitch.ChordName {
				continue
			}
			again, err := pitch.ParseChord(n.Name)
			if err != nil {
				t.Fatal(err)
			}
			sounds := tones(again)
			if again.Bass.Class() != notes[0].Class() || chroma(sounds) != chroma(notes) {
				t.Fatalf("%v is called %s, which is %v", notes, n.Name, sounds)
			}
		}
	})
}
