package score

import (
	"heddle/line"
	"heddle/score/surface"
)

// A bracketMark is the bracket over one group in one system.
type bracketMark struct {
	from, to     float64
	opens, shuts bool // whether the group begins and ends here
	style        int  // number of the scale, or landingStyle
	label        string
}

// The style and the label of the bracket over the notes that lead home.
const (
	landingStyle = -1
	landingLabel = "landing"
)

// Bracket geometry in staff spaces.
const (
	bracketHook  = 0.75
	bracketWidth = 0.17
	bracketReach = 0.62 // beyond the middle of the outer heads
)

// bracketsOf finds the groups of the system.
func (s *system) bracketsOf() []bracketMark {
	if len(s.exercise.Scales) == 0 {
		return nil
	}
	var marks []bracketMark
	for i := 0; i < len(s.heads); {
		j := i + 1
		for j < len(s.heads) && s.sameGroup(s.heads[i].event.Note, s.heads[j].event.Note) {
			j++
		}
		first, last := s.heads[i], s.heads[j-1]
		m := bracketMark{
			from: first.x - bracketReach, to: last.x + bracketReach,
			opens: !first.event.TieFrom && !s.sameGroup(first.event.Note, first.event.Note-1),
			shuts: !last.event.TieTo && !s.sameGroup(last.event.Note, last.event.Note+1),
		}
		s.nameBracket(&m, first.event.Note)
		marks = append(marks, m)
		i = j
	}
	return marks
}

// nameBracket gives a bracket its style and label: the root of the scale alone,
// whose type is in the legend under the neck. The landing is labelled where there
// is room.
func (s *system) nameBracket(m *bracketMark, note int) {
	// A group inside a phrase may begin with a chord tone that is in no scale.
	for s.exercise.Notes[note].Scale == line.Chromatic && s.exercise.Notes[note].Role != line.LandingRole && s.sameGroup(note, note+1) {
		note++
	}
	n := s.exercise.Notes[note]
	m.style = s.style(note)
	if n.Role != line.LandingRole && m.style >= 0 {
		m.label = s.exercise.Naming.Name(s.exercise.Scales[n.Scale].Root)
		return
	}
	m.style = landingStyle
	if surface.Sans.Width(landingLabel, labelSize) <= m.to-m.from {
		m.label = landingLabel
	}
}

// sameGroup reports whether two notes are under one bracket.
func (s *system) sameGroup(a, b int) bool {
	if b < 0 || b >= len(s.exercise.Notes) {
		return false
	}
	x, y := s.exercise.Notes[a], s.exercise.Notes[b]
	if x.Role == line.LandingRole || y.Role == line.LandingRole {
		return x.Role == y.Role
	}
	return x.Group == y.Group
}

// draw draws the bracket with its line at y and its label above.
func (m bracketMark) draw(p pen, y, labelY float64) []surface.Item {
	paint := surface.Soft
	if m.style >= 0 {
		paint = surface.Scale(m.style)
	}
	var items []surface.Item
	hooks := surface.Rules{Width: bracketWidth * p.space, Paint: paint}
	if m.opens {
		hooks.Lines = append(hooks.Lines, [2]surface.Point{p.at(m.from, y-bracketWidth/2), p.at(m.from, y+bracketHook)})
	}
	if m.shuts {
		hooks.Lines = append(hooks.Lines, [2]surface.Point{p.at(m.to, y-bracketWidth/2), p.at(m.to, y+bracketHook)})
	}
	if m.style == landingStyle {
		items = append(items, p.line(m.from, y, m.to, y, bracketWidth*0.6, paint))
		hooks.Width *= 0.6
	} else {
		items = append(items, p.dashed(m.from, y, m.to, y, bracketWidth, surface.ScaleDash(m.style, p.space), paint))
	}
	if len(hooks.Lines) > 0 {
		items = append(items, hooks)
	}
	if m.label != "" {
		items = append(items, p.text(m.label, (m.from+m.to)/2, labelY, labelSize, surface.Sans, surface.Center, paint))
	}
	return items
}
