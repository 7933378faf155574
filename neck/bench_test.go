package neck

import (
	"testing"

	"heddle/pitch"
)

// Placing and ranking are part of the half millisecond that a spec of two
// scales has to become an exercise: two pentatonics take no more than 0.15 ms
// of it.

func BenchmarkPlacements(b *testing.B) {
	for _, name := range []string{"G minor pentatonic", "G major", "G blues", "G chromatic"} {
		b.Run(name, func(b *testing.B) {
			in, s := Guitar(), scale(b, name)
			b.ReportAllocs()
			for b.Loop() {
				Placements(in, s)
			}
		})
	}
}

func BenchmarkNear(b *testing.B) {
	for _, c := range []struct{ name, home, over string }{
		{"two pentatonics", "G minor pentatonic", "Ab minor pentatonic"},
		{"two seven-note scales", "G major", "Ab major"},
		{"two blues scales", "G blues", "Ab blues"},
	} {
		b.Run(c.name, func(b *testing.B) {
			in, home, over := Guitar(), scale(b, c.home), []pitch.Scale{scale(b, c.over)}
			b.ReportAllocs()
			for b.Loop() {
				Near(in, home, over, DefaultReachMM)
			}
		})
	}
}
