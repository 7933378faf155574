package weave_test

import (
	"strings"
	"testing"

	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

// Traditional melodies in the public domain, their pitches written from memory of the
// editions named; keys and rhythms as usual there.
var melodies = []struct{ title, edition, home, notes string }{
	{"New Britain", "The Southern Harmony, New Haven 1835", "G major pentatonic",
		"D4 G4 B4 G4 B4 A4 G4 E4 D4 D4 G4 B4 G4 B4 A4 D5 B4 D5 B4 D5 B4 G4 D4 E4 G4 G4 E4 D4 D4 G4 B4 G4 B4 A4 G4"},
	{"Auld Lang Syne", "The Scots Musical Museum, Edinburgh 1796", "G major pentatonic",
		"D4 G4 G4 G4 B4 A4 G4 A4 B4 G4 G4 B4 D5 E5 E5 D5 B4 B4 G4 A4 G4 A4 B4 G4 E4 E4 D4 G4"},
	{"Frère Jacques", "La Clé du Caveau, Paris 1811", "F major",
		"F4 G4 A4 F4 F4 G4 A4 F4 A4 Bb4 C5 A4 Bb4 C5 C5 D5 C5 Bb4 A4 F4 C5 D5 C5 Bb4 A4 F4 F4 C4 F4 F4 C4 F4"},
	{"Scarborough Fair", "Traditional Tunes, Oxford 1891, in the dorian form that is usually sung", "D dorian",
		"D4 D4 A4 A4 A4 E4 F4 E4 D4 A4 C5 D5 C5 A4 B4 G4 A4 D5 D5 D5 C5 A4 A4 G4 F4 E4 C4 D4 A4 G4 F4 E4 D4 C4 D4"},
}

func TestMelodiesAreReadInTheirOwnKey(t *testing.T) {
	for _, m := range melodies {
		var notes []line.Note
		for i, word := range strings.Fields(m.notes) {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			notes = append(notes, line.Note{Pitch: p, Start: line.Beat(i) * line.Quarter, Duration: line.Quarter})
		}
		r := weave.Read(weave.Request{Notes: notes})[0]
		if len(r.Segments) != 1 || r.Home.Name() != m.home {
			t.Errorf("%s (%s): %s in %d segments, want %s", m.title, m.edition, r.Home.Name(), len(r.Segments), m.home)
		}
	}
}
