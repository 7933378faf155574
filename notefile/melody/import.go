package melody

import (
	"fmt"

	"heddle/exercise"
	"heddle/notefile/sheet"
	"heddle/pitch"
)

// An Import is one melodic line read from a file of another program. Its notes
// follow one another and never overlap. Their groups and scales are not known:
// Scale is line.Chromatic, Group and Step are 0, Role is the pattern's. The
// metre is 4/4, the swing straight and the tempo 0 where the file gives none.
type Import struct {
	exercise.Given
	Part    string   // the part, track or channel that holds the line
	Parts   []string // all parts that hold notes, in the file's order
	Remarks []string // what was left out, changed or chosen, one sentence each
}

// MaxNotes limits the notes and marks kept of one file: a long symphony in full
// score.
const MaxNotes = 50_000

// A Counter counts the notes and marks kept of a file.
type Counter int

// Keep counts one more. Past MaxNotes it returns an error.
func (c *Counter) Keep() error {
	if *c++; *c > MaxNotes {
		return fmt.Errorf("more than %d notes and marks", MaxNotes)
	}
	return nil
}

// maxRemarks limits what is said about one file.
const maxRemarks = 30

// Remark adds a sentence to the remarks.
func (im *Import) Remark(format string, arguments ...any) {
	switch {
	case len(im.Remarks) == maxRemarks:
		im.Remarks = append(im.Remarks, "and more of the same")
	case len(im.Remarks) < maxRemarks:
		im.Remarks = append(im.Remarks, fmt.Sprintf(format, arguments...))
	}
}

// CheckLength returns an error for a line too long to be written again.
func (im *Import) CheckLength() error {
	bars := int(im.Notes[len(im.Notes)-1].End() / im.Rhythm.Meter.Bar())
	if bars > sheet.MaxBars {
		return &pitch.InputError{What: "length of the line", Value: pitch.Count(bars, "bar"), Want: "at most " + pitch.Count(sheet.MaxBars, "bar")}
	}
	return nil
}
