package score

import (
	"fmt"
	"strings"

	"heddle/exercise"
	"heddle/line"
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
	return describeStaff(ex, c) + " " + describeNotes(ex, 0, len(ex.Notes))
}

// describe says what the system shows as describe does of the whole.
func (s *system) describe() string {
	from, to := len(s.exercise.Notes), 0
	for _, c := range s.columns {
		if n := c.event.Note; !c.barLine && n != line.Silence {
			from, to = min(from, n), max(to, n+1)
		}
	}
	notes := describeNotes(s.exercise, from, to)
	if s.first {
		return describeStaff(s.exercise, s.clef) + " " + notes
	}
	return notes
}

// describeStaff says what the whole line is made of.
func describeStaff(ex *exercise.Exercise, c clef) string {
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
	out.WriteString(".")
	return out.String()
}

// describeNotes says the notes from … to−1, a semicolon between groups.
func describeNotes(ex *exercise.Exercise, from, to int) string {
	var out strings.Builder
	for i := from; i < to; i++ {
		n := ex.Notes[i]
		switch {
		case i == from:
		case n.Group != ex.Notes[i-1].Group:
			out.WriteString("; ")
		default:
			out.WriteString(", ")
		}
		fmt.Fprintf(&out, "%s string %d fret %d", ex.Naming.Name(n.Pitch.Name), n.String, n.Fret)
	}
	return out.String()
}
