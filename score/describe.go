package score

import (
	"fmt"
	"strings"

	"heddle/exercise"
)

// titleOf returns the title of a view: the one asked for, else what the view
// is and the exercise's sentence.
func titleOf(ex *exercise.Exercise, opt Options, view string) string {
	if opt.Title != "" {
		return opt.Title
	}
	if ex.Sentence != "" {
		return ex.Sentence
	}
	return view
}

// describe says what the score shows, for those who can't see it: scales,
// metre, and every note by name with its string and fret.
func describe(ex *exercise.Exercise, c clef) string {
	var out strings.Builder
	fmt.Fprintf(&out, "Staff in %s, %d/%d", c.spoken, ex.Rhythm.Meter.Beats, ex.Rhythm.Meter.Unit)
	fmt.Fprintf(&out, ", %d notes", len(ex.Notes))
	for i, s := range ex.Scales {
		if i == 0 {
			out.WriteString(", from ")
		} else {
			out.WriteString(" and ")
		}
		out.WriteString(scaleText(ex.Naming, s.Scale))
	}
	out.WriteString(". ")
	group := -1
	for i, n := range ex.Notes {
		if i > 0 && n.Group != group {
			out.WriteString("; ")
		} else if i > 0 {
			out.WriteString(", ")
		}
		group = n.Group
		fmt.Fprintf(&out, "%s string %d fret %d", ex.Naming.Name(n.Pitch.Name), n.String, n.Fret)
	}
	return out.String()
}
