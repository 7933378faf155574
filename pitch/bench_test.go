package pitch_test

import (
	"testing"

	"heddle/pitch"
)

func BenchmarkCollect(b *testing.B) {
	home, other := mustScale(b, "G minor pentatonic"), mustScale(b, "Ab minor pentatonic")
	for b.Loop() {
		pitch.Collect(home, other)
	}
}

func BenchmarkParseScale(b *testing.B) {
	for b.Loop() {
		mustScale(b, "G minor pentatonic")
	}
}

func BenchmarkParseChord(b *testing.B) {
	for b.Loop() {
		mustChord(b, "G7(b9,#11)")
	}
}

func BenchmarkRelative(b *testing.B) {
	home := mustScale(b, "G minor pentatonic")
	for b.Loop() {
		if _, err := pitch.Relative(home, "tritone"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDegreeAndFunction(b *testing.B) {
	chord, n := mustChord(b, "Gm7"), mustName(b, "Ab")
	for b.Loop() {
		chord.Degree(n, pitch.Scale{})
		chord.Function(n, pitch.Scale{})
	}
}
