package exercise

import (
	"slices"

	"heddle/line"
	"heddle/pitch"
)

// group gives each note its group and its scale.
func (g Given) group(notes []line.Note, scales []pitch.Scale) {
	if g.Grouped {
		g.keepGroups(notes, scales)
		return
	}
	groupByScale(notes, scales)
}

// keepGroups keeps the groups of the source. A note gets the scale that the source
// names, if it is one of the scales and has the note, otherwise the first scale
// that has it.
func (g Given) keepGroups(notes []line.Note, scales []pitch.Scale) {
	for i := range notes {
		n := &notes[i]
		has := func(s pitch.Scale) bool { _, in := s.Named(n.Pitch.Name.Class()); return in }
		n.Scale = slices.IndexFunc(scales, func(s pitch.Scale) bool { return s.Name() == g.Notes[i].From && has(s) })
		if n.Scale < 0 {
			n.Scale = slices.IndexFunc(scales, has)
		}
		n.Role, n.Step = g.Notes[i].Role, 1
		if i > 0 && notes[i-1].Group == n.Group {
			n.Step = notes[i-1].Step + 1
		}
	}
}

// groupByScale gives each note the scale of the note before if that has it, otherwise
// the first scale that does. Each run of one scale is a group.
func groupByScale(notes []line.Note, scales []pitch.Scale) {
	scale := 0
	for i := range notes {
		class := notes[i].Pitch.Name.Class()
		if _, in := scales[max(0, scale)].Named(class); !in || scale == line.Chromatic {
			scale = slices.IndexFunc(scales, func(s pitch.Scale) bool { _, in := s.Named(class); return in })
		}
		notes[i].Scale, notes[i].Group, notes[i].Step = scale, 0, 1
		if i > 0 {
			notes[i].Group, notes[i].Step = notes[i-1].Group, notes[i-1].Step+1
			if notes[i-1].Scale != scale {
				notes[i].Group, notes[i].Step = notes[i].Group+1, 1
			}
		}
	}
}

// namedScales returns the scales that the source names, in the order of their first
// notes.
func (g Given) namedScales() (names []string) {
	for _, n := range g.Notes {
		if n.From != "" && !slices.Contains(names, n.From) {
			names = append(names, n.From)
		}
	}
	return names[:min(len(names), maxScales)]
}
