package model

import (
	"slices"
	"strings"
)

type chordName struct{ root, kind string }

// chords gives chord symbols as semitones above the root (common practice).
var chords = map[string][]int{
	"": {0, 4, 7}, "m": {0, 3, 7}, "7": {0, 4, 7, 10}, "m7": {0, 3, 7, 10}, "maj7": {0, 4, 7, 11}, "m7b5": {0, 3, 6, 10},
	"dim7": {0, 3, 6, 9}, "6": {0, 4, 7, 9}, "m6": {0, 3, 7, 9}, "sus4": {0, 5, 7}, "sus2": {0, 2, 7}, "5": {0, 7}, "7sus4": {0, 5, 7, 10},
	"9": {0, 2, 4, 7, 10}, "13": {0, 2, 4, 7, 9, 10}, "7b9": {0, 1, 4, 7, 10}, "7#5": {0, 4, 8, 10}, "m9": {0, 2, 3, 7, 10}, "m(maj7)": {0, 3, 7, 11},
}

var chordKinds = func() (names []string) {
	for name := range chords {
		names = append(names, name)
	}
	slices.Sort(names)
	return append(names, "7", "7", "m7", "m7")
}()

// degreeSemitones returns the semitones above the root that a degree names.
func degreeSemitones(degree string) int {
	number := strings.TrimLeft(degree, "b#")
	at := map[string]int{"1": 0, "9": 2, "2": 2, "3": 4, "11": 5, "4": 5, "5": 7, "13": 9, "6": 9, "7": 11}
	semis, ok := at[number]
	if !ok {
		return -100
	}
	return mod(semis+strings.Count(degree, "#")-strings.Count(degree, "b"), 12)
}

var bluesHomes = []string{"minor pentatonic", "blues"}

func checkFunctions(f *faults, b *built) {
	if b.chord.root == "" {
		return
	}
	root, tones := pitchClass(b.chord.root), chords[b.chord.kind]
	has := func(semis int) bool { return slices.Contains(tones, semis) }
	dominant := has(4) && has(10)
	minorSeventh := has(3) && has(7) && has(10)
	noThird := !has(3) && !has(4)
	for _, n := range b.Notes {
		above := mod(n.MIDI-root, 12)
		if degreeSemitones(n.Degree) != above {
			f.add("a degree is the note's distance from the chord's root", b, "note %d: %s over %s is called %s", n.Index, n.Name, b.chord.root+b.chord.kind, n.Degree)
		}
		if above == 6 && has(7) && b.spellsFlatFifth(n) && n.Degree != "b5" {
			f.add("a flat fifth over a natural fifth is b5 where its scale spells a fifth", b, "note %d: %s is called %s", n.Index, n.Name, n.Degree)
		}
		told := func(rule, want string) {
			if n.Function != want {
				f.add(rule, b, "note %d: %s (%s) is called %s, want %s", n.Index, n.Name, n.Degree, n.Function, want)
			}
		}
		blues := slices.Contains(bluesHomes, b.home.kind)
		blue := blues && b.home.root == b.chord.root && (above == 3 && dominant || above == 6 && !has(6) && (dominant || minorSeventh))
		switch {
		case has(above):
			// The named tensions of 9, 13 and 7b9 may be called either.
			if slices.Contains([]int{0, 3, 4, 7, 10, 11}, above) || !dominant && above != 2 {
				told("a note of the chord is a chord tone", "chord tone")
			} else if n.Function != "chord tone" && n.Function != "tension" {
				told("a named tension is a chord tone or a tension", "tension")
			}
		case blue:
			told("blue notes", "blue")
		case blues && (above == 3 || above == 6): // whose root is not the chord's
		case n.Function == "blue" || n.Function == "chord tone":
			f.add("nothing else is blue or of the chord", b, "note %d: %s (%s) is called %s", n.Index, n.Name, n.Degree, n.Function)
		case noThird && has(5) && above == 4:
			told("the third over a suspended fourth is an avoid note", "avoid")
		case noThird && !has(5) && (above == 3 || above == 4 || above == 5):
			told("thirds and the fourth are open over a power chord and a suspended second", "tension")
		}
	}
}

// spellsFlatFifth reports whether a note belongs to a scale on the chord's root
// that spells it as a fifth.
func (b *built) spellsFlatFifth(n note) bool {
	if n.Scale < 0 || pitchClass(b.Scales[n.Scale].Notes[0]) != pitchClass(b.chord.root) {
		return false
	}
	root, _ := letterOf(b.Scales[n.Scale].Notes[0])
	letter, _ := letterOf(n.Name)
	return mod(letter-root, 7) == 4
}
