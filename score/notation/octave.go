package notation

import (
	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
)

// Place returns where a sounding pitch is written in a clef: steps above the
// middle line.
func Place(c neck.Clef, p pitch.Pitch) int {
	middle := steps(pitch.B, 4)
	if c.Bass {
		middle = steps(pitch.D, 3)
	}
	return steps(p.Name.Letter, p.Octave-c.Octave) - middle
}

// steps numbers the white keys from C0.
func steps(letter pitch.Letter, octave int) int { return 7*octave + int(letter) }

// When a line goes under an octave line, where it is written an octave lower
// (common practice; Gould 2011, "Octave signs", from memory: ledger lines up to
// three or four are read easily, and a line is not to begin and end all the time).
const (
	thirdLedger = 10 // its staff place
	fewestHigh  = 3  // notes in a row above it that ask for an octave line
	mostBetween = 2  // lower notes that do not end it
)

// Octaves returns for each note of an exercise whether it is written under an
// octave line.
func Octaves(ex *exercise.Exercise) []bool {
	under := make([]bool, len(ex.Notes))
	clef := ex.Instrument.Clef()
	high := func(i int) bool { return Place(clef, ex.Notes[i].Pitch) > thirdLedger }
	for i := 0; i < len(under); i++ {
		if !high(i) {
			continue
		}
		end, row, longest := i, 0, 0 // end: after the last high note
		for j := i; j < len(under) && j-end <= mostBetween; j++ {
			row++
			if !high(j) {
				row = 0
				continue
			}
			end, longest = j+1, max(longest, row)
		}
		if longest >= fewestHigh {
			for k := i; k < end; k++ {
				under[k] = true
			}
		}
		i = end
	}
	return under
}
