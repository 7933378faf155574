package melody

import (
	"strings"
	"testing"

	"heddle/pitch"
)

// The names of the twelve keys from C in a key, as common practice has them:
// the key's own, and leading tones and blue notes around it.
func TestKeysAreSpelledByTheSignature(t *testing.T) {
	for fifths, want := range map[int]string{
		0:  "C C# D Eb E F F# G G# A Bb B",
		1:  "C C# D D# E F F# G G# A Bb B",
		-2: "C Db D Eb E F F# G Ab A Bb B",
		-3: "C Db D Eb E F Gb G Ab A Bb B",
		4:  "B# C# D D# E E# F# G G# A A# B",
	} {
		var names []string
		for key := 60; key < 72; key++ {
			p := Spell(key, fifths)
			if p.MIDI() != key {
				t.Errorf("key %d became %s", key, p)
			}
			names = append(names, p.Name.String())
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%d: %s, want %s", fifths, got, want)
		}
	}
}

func TestTheBestKeyHoldsMostNotes(t *testing.T) {
	for notes, want := range map[string]int{
		"C4 D4 E4 F4 G4 A4 B4": 0, "F#4 G4 A4": 1, "Bb4 A4 G4 Eb4": -2, "C#4 F#4 G#4 A4 B4": 3, "C4": 0, "Db4 Eb4 F4 Gb4 Ab4": -5,
	} {
		var keys []int
		for _, word := range strings.Fields(notes) {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			keys = append(keys, p.MIDI())
		}
		if got := BestKey(keys); got != want {
			t.Errorf("%s: %d, want %d", notes, got, want)
		}
	}
}

func TestLyricsNameNotesInEveryNaming(t *testing.T) {
	for _, c := range []struct {
		lyric string
		class int
		want  string
	}{
		{"B", 11, "B"}, {"B", 10, "Bb"}, {"H", 11, "B"}, {"Cb", 11, "Cb"}, {"Ces", 11, "Cb"}, {"C♭", 11, "Cb"}, {"Sib", 10, "Bb"}, {"Ré", 2, "D"}, {"Fis", 6, "F#"},
		{"la", 9, ""}, {"C", 1, ""}, {"", 0, ""}, {strings.Repeat("C", 1000), 0, ""},
	} {
		n, ok := NameIn(c.lyric, c.class)
		if got := n.String(); ok != (c.want != "") || ok && got != c.want {
			t.Errorf("%.20q over class %d is %s, %v, want %q", c.lyric, c.class, got, ok, c.want)
		}
	}
}
