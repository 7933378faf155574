package weave_test

import (
	"math/rand/v2"
	"testing"

	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

// melody is a line of no pattern: steps and leaps, mostly in C major.
func melody(count int) []line.Note {
	random := rand.New(rand.NewPCG(3, 4))
	scale := []int{0, 2, 4, 5, 7, 9, 11}
	degree, notes := 14, make([]line.Note, count)
	for i := range notes {
		degree = min(28, max(7, degree+random.IntN(7)-3))
		key := 36 + 12*(degree/7) + scale[degree%7]
		if random.IntN(8) == 0 {
			key++
		}
		notes[i] = line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: line.Beat(i) * line.Quarter, Duration: line.Quarter}
	}
	return notes
}

func BenchmarkRead(b *testing.B) {
	woven := make([]line.Note, 0, 64)
	for _, key := range []int{77, 74, 72, 75, 73, 71, 74, 72, 70, 73, 71, 68, 72, 70, 67, 71, 68, 66, 70, 67, 65, 68, 66, 63, 67, 65, 62} {
		woven = append(woven, line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: line.Beat(len(woven)) * line.Quarter, Duration: line.Quarter})
	}
	for _, c := range []struct {
		name  string
		notes []line.Note
	}{{"woven 27", woven}, {"melody 64", melody(64)}, {"melody 4096", melody(4096)}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				weave.Read(weave.Request{Notes: c.notes})
			}
		})
	}
}
