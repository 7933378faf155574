package finger_test

import (
	"fmt"
	"testing"

	"heddle/finger"
	"heddle/neck"
)

// wovenLine is 64 notes in position: two placements a fret apart woven in
// threes, each note free to lie on another string within the position.
func wovenLine(t testing.TB) []finger.Note {
	in := neck.Guitar()
	spots := at(t, `1/13 1/10 2/13  1/11 2/14 2/12  1/10 2/13 2/11  2/14 2/12 3/13  2/13 2/11 3/12
		2/12 3/13 3/11  2/11 3/12 3/10  3/13 3/11 4/13  3/12 3/10 4/12  3/11 4/13 4/11  3/10 4/12 4/10`)
	for len(spots) < 64 {
		spots = append(spots, spots[:min(len(spots), 64-len(spots))]...)
	}
	notes := grouped(eighths(in, spots), 3)
	for i := range notes {
		for _, s := range everywhere(in, notes[i].MIDI)[0].Spots {
			if s.Fret >= 10 && s.Fret <= 14 && s != notes[i].Preferred {
				notes[i].Spots = append(notes[i].Spots, s)
			}
		}
	}
	return notes
}

// freeLine is a run up and down two octaves and more, each note anywhere on
// the neck.
func freeLine(length int) []finger.Note {
	steps := []int{43, 45, 46, 48, 50, 51, 53, 55, 57, 58, 60, 62, 63, 65, 67, 69, 70, 72, 74, 75, 77, 79}
	keys := make([]int, length)
	for i := range keys {
		around := i % (2*len(steps) - 2)
		keys[i] = steps[min(around, 2*len(steps)-2-around)]
	}
	return everywhere(neck.Guitar(), keys...)
}

// BenchmarkAssign fingers a line of 64 notes held to one position, which has
// a part of the 0.5 ms for a whole exercise, and free lines as they come from
// imported files.
func BenchmarkAssign(b *testing.B) {
	in := neck.Guitar()
	for _, picking := range []finger.Picking{finger.Alternate, finger.Economy, finger.Legato} {
		for _, line := range []struct {
			name  string
			notes []finger.Note
		}{{"position", wovenLine(b)}, {"free", freeLine(64)}, {"free", freeLine(2000)}} {
			b.Run(fmt.Sprintf("%s/%s/%d", picking, line.name, len(line.notes)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, _, err := finger.Assign(in, line.notes, finger.Technique{Picking: picking}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
