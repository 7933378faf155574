package score

import (
	"heddle/finger"
	"heddle/line"
	"heddle/score/surface"
)

// strokeScale makes a stroke's sign as wide as the letters beside it.
const strokeScale = 0.72

// pickSigns are the signs of the picking hand's strokes.
var pickSigns = map[finger.Stroke]surface.Sign{finger.Down: surface.DownStroke, finger.Up: surface.UpStroke}

// drawRows draws what stands in each column beneath the staff: stroke, fret,
// finger, name, degree and roughness.
func (s *system) drawRows(p pen) {
	baselines := [rowCount]float64{
		strokeRow: s.rows.strokes, fingerRow: s.rows.fingers, nameRow: s.rows.names, degreeRow: s.rows.degrees,
	}
	for i, c := range s.columns {
		if c.barLine || c.event.Note == line.Silence {
			continue
		}
		n := s.exercise.Notes[c.event.Note]
		for r := strokeRow; r < rowCount; r++ {
			text, face, size := s.cell(c, r)
			if text == "" {
				continue
			}
			y, paint := baselines[r], surface.Ink
			switch r {
			case tabRow:
				y = s.stringY(n.String) + surface.CapHeight*size/2
				if s.options.ByHeart {
					s.notes[i] = append(s.notes[i], s.tabWhite(p, c.x, s.stringY(n.String), face.Width(text, size)))
				}
			case strokeRow, fingerRow:
				paint = surface.Soft
			case nameRow:
				paint = s.paint(c.event.Note)
			case degreeRow:
				paint = surface.Soft
			}
			s.notes[i] = append(s.notes[i], p.text(text, c.x, y, size, face, surface.Center, paint))
		}
		if sign, picked := pickSigns[n.Stroke]; picked && s.options.has(Strokes) && !c.event.TieFrom {
			small := pen{p.origin, p.space * strokeScale}
			g := small.centered(sign, c.x/strokeScale, s.rows.strokes/strokeScale)
			g.Paint = surface.Soft
			s.notes[i] = append(s.notes[i], g)
		}
		if bar := s.roughnessBar(p, c); bar != nil {
			s.notes[i] = append(s.notes[i], bar)
		}
	}
}

// rowLabelSize is the size of the words that name the rows, in staff spaces.
const rowLabelSize = 1.15

// drawRowLabels names the rows beneath the first system's tablature.
func (s *system) drawRowLabels(p pen) []surface.Item {
	var items []surface.Item
	for _, row := range []struct {
		part Part
		text string
		y    float64
	}{
		{Fingers, "finger", s.rows.fingers}, {NoteNames, "name", s.rows.names}, {Degrees, "degree", s.rows.degrees}, {Roughness, "roughness", s.rows.roughness},
	} {
		if s.options.has(row.part) && row.y > 0 {
			items = append(items, p.text(row.text, 0, row.y, rowLabelSize, surface.Sans, surface.Left, surface.Soft))
		}
	}
	return items
}

// roughnessBar returns a bar as high as the note is rough against the chord,
// the roughest note of the exercise having barHeight; a hairline where a note
// is smooth.
func (s *system) roughnessBar(p pen, c column) surface.Item {
	if !s.options.has(Roughness) || s.roughest <= 0 || c.event.TieFrom {
		return nil
	}
	height := max(barHeight*s.exercise.Notes[c.event.Note].Roughness/s.roughest, 0.12)
	half, base := barWidth/2, s.rows.roughness
	return p.shape(s.paint(c.event.Note),
		surface.Pt(c.x-half, base), surface.Pt(c.x+half, base), surface.Pt(c.x+half, base-height), surface.Pt(c.x-half, base-height))
}
