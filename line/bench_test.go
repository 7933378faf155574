package line

import (
	"testing"

	"heddle/neck"
	"heddle/pitch"
)

// third is the third of Gm7.
var third = Target{Name: pitch.Name{Letter: pitch.B, Accidental: -1}, Degree: pitch.Degree{Number: 3, Alter: -1}}

func BenchmarkBuildThreesDownTheNeck57Notes(b *testing.B) {
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Build(r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLand(b *testing.B) {
	for _, c := range []struct {
		name string
		bars int // of the line
	}{
		{"a quarter left", 4},
		{"seven eighths left", 0},
		{"nothing left", 3},
	} {
		b.Run(c.name, func(b *testing.B) {
			r := weave(Down, FollowFirst, outAndBack(3, 3)...)
			r.Bars = c.bars
			request := landOn(b, r, third)
			b.ReportAllocs()
			for b.Loop() {
				if len(Land(request)) == 0 {
					b.Fatal("no ending")
				}
			}
		})
	}
}

// landOn is a request to land a line on beat 1.
func landOn(t testing.TB, r Request, targets ...Target) LandRequest {
	t.Helper()
	notes := build(t, r)
	at, err := LandingBeat(notes[len(notes)-1].End(), r.Rhythm.Meter, 1, r.Bars)
	if err != nil {
		t.Fatal(err)
	}
	return LandRequest{Line: notes, At: at, Targets: targets, Sections: r.Sections, Instrument: neck.Guitar(), Rhythm: r.Rhythm}
}
