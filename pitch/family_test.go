package pitch

import (
	"slices"
	"testing"
)

func TestEveryTypeIsInOneFamily(t *testing.T) {
	var names []string
	for _, f := range Families() {
		if len(f.Types) == 0 {
			t.Errorf("%s has no types", f.Name)
		}
		for _, own := range f.Types {
			names = append(names, own.Name)
		}
	}
	for _, own := range Types() {
		if n := len(names); slices.Index(names, own.Name) < 0 || n != len(Types()) {
			t.Errorf("%s is in no family, or one is in two: %d names for %d types", own.Name, n, len(Types()))
		}
	}
}

// Common practice.
func TestFamiliesHoldWhatPlayersExpect(t *testing.T) {
	for family, types := range map[string][]string{
		"Pentatonics": {"minor pentatonic", "major pentatonic"}, "Modes of major": {"dorian", "locrian"}, "Blues and six notes": {"minor blues", "whole tone"},
		"Modes of melodic minor": {"altered", "lydian dominant"}, "Sevenths": {"minor seventh arpeggio"}, "Triads": {"minor triad"},
		"Eight notes and more": {"octatonic half-whole", "composite blues"},
	} {
		i := slices.IndexFunc(Families(), func(f Family) bool { return f.Name == family })
		for _, name := range types {
			if i < 0 || !slices.ContainsFunc(Families()[i].Types, func(own Type) bool { return own.Name == name }) {
				t.Errorf("%s has no %s", family, name)
			}
		}
	}
}
