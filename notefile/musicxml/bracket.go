package musicxml

import (
	"heddle/exercise"
	"heddle/notefile/sheet"
)

// bracketLines are the line styles over groups of home, of the first
// superimposed scale, of the second and of any further one, so that they differ
// without colour.
var bracketLines = [...]string{"solid", "dashed", "dotted", "wavy"}

func bracketLine(ex *exercise.Exercise, r sheet.Run) string {
	if _, ok := sheet.ScaleOf(ex, r); !ok {
		return bracketLines[0]
	}
	away := 0
	for i := r.Scale; i > 0 && !ex.Scales[i].Home; i-- {
		away++
	}
	return bracketLines[min(away, len(bracketLines)-1)]
}
