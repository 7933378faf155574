package score

import (
	"fmt"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/score/surface"
)

// describe says what the score shows, for those who can't see it: scales,
// metre, and every note by name with its string and fret, except what the
// picture hides.
func (l *layout) describe() string {
	return strings.TrimSpace(describeStaff(l.exercise, l.clef) + " " + l.describeNotes(0, len(l.exercise.Notes)))
}

// describe does the same for one system.
func (s *system) describe() string {
	from, to := len(s.exercise.Notes), 0
	for _, c := range s.columns {
		if n := c.event.Note; !c.barLine && n != line.Silence {
			from, to = min(from, n), max(to, n+1)
		}
	}
	notes := s.describeNotes(from, to)
	if s.first {
		return strings.TrimSpace(describeStaff(s.exercise, s.clef) + " " + notes)
	}
	return notes
}

// describeStaff describes the line as a whole.
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
		out.WriteString(ex.Naming.Scale(s.Scale))
	}
	out.WriteString(".")
	return out.String()
}

// describeNotes lists the notes from … to−1, with semicolons between groups.
func (l *layout) describeNotes(from, to int) string {
	ex, names, places := l.exercise, l.options.has(NoteNames), l.options.has(Tablature)
	if l.options.ByHeart {
		return surface.UntilHeard
	}
	if !names && !places {
		return ""
	}
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
		if names {
			out.WriteString(ex.Naming.Name(n.Pitch.Name))
		}
		if places {
			if names {
				out.WriteByte(' ')
			}
			fmt.Fprintf(&out, "string %d fret %d", n.String, n.Fret)
		}
	}
	return out.String()
}
