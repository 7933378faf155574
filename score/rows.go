package score

import (
	"heddle/finger"
	"heddle/line"
	"heddle/score/surface"
)

// rowPlaces are where the rows beneath the staff lie: baselines of text, the
// top line of the tablature.
type rowPlaces struct {
	strokes, tab, fingers, names, degrees, roughness float64
	end                                              float64
}

// abovePlaces are where the rows above the staff lie, as baselines.
type abovePlaces struct {
	octave, bracket, label, chord, tempo float64
	end                                  float64 // the top of all
}

// Distances between rows in staff spaces.
const (
	rowGap      = 0.75
	tabSpace    = 1.5 // between strings
	tabGap      = 1.6 // between the staff's lowest mark and the tablature
	chordRise   = 0.8
	tempoRise   = 3.2 // of the tempo mark's note and the swing mark's bracket
	barHeight   = 2.2 // of the tallest roughness bar
	barWidth    = 0.55
	clefMargin  = 0.5
	prefixAfter = 1.0
)

// placeRows stacks the rows beneath the staff.
func (s *system) placeRows() {
	y := s.bottom
	text := func(part Part, size float64) float64 {
		if !s.options.has(part) {
			return 0
		}
		y += rowGap + surface.CapHeight*size
		return y
	}
	s.rows.strokes = text(Strokes, strokeSize)
	if s.options.has(Tablature) {
		y = max(y+tabGap+s.touchRise(), s.clef.line+s.clef.sign.Box().MaxY+rowGap)
		s.rows.tab = y
		y += s.tabHeight() + surface.CapHeight*tabSize/2
	}
	s.rows.fingers = text(Fingers, fingerSize)
	s.rows.names = text(NoteNames, nameSize)
	s.rows.degrees = text(Degrees, degreeSize)
	if s.options.has(Roughness) && s.roughest > 0 {
		y += rowGap*0.7 + barHeight
		s.rows.roughness = y
	}
	s.rows.end = y + 0.6
}

// placeAbove stacks the rows above the staff.
func (s *system) placeAbove() {
	y := min(s.top, -1.0)
	if len(s.octaveLines) > 0 {
		y -= octaveGap
		s.above.octave = y
		y -= octaveRise
	}
	if s.options.has(Brackets) && len(s.brackets) > 0 {
		y -= 1.5
		s.above.bracket = y
		y -= 0.55
		s.above.label = y
		y -= surface.CapHeight * labelSize
	}
	if s.options.has(ChordSymbols) && s.hasChords() {
		y -= chordRise
		s.above.chord = y
		y -= surface.CapHeight * chordSize
	}
	y = min(y, -1.9-surface.CapHeight*labelSize) // the bar number over the clef
	if s.first && s.options.has(TempoMark) {
		y -= 1.2
		s.above.tempo = y
		y -= tempoRise
	}
	s.above.end = y - 0.3
}

func (s *system) hasChords() bool {
	for i, c := range s.columns {
		if s.chordOver(c, i == 0) != "" {
			return true
		}
	}
	return false
}

func (s *system) tabHeight() float64 { return tabSpace * float64(s.exercise.Instrument.Strings()-1) }

// strokeScale makes a stroke's sign as wide as the letters beside it.
const strokeScale = 0.72

// pickSigns are the signs of the picking hand's strokes.
var pickSigns = map[finger.Stroke]surface.Sign{finger.Down: surface.DownStroke, finger.Up: surface.UpStroke}

// drawRows draws the rows beneath the staff, column by column: stroke, fret,
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
const rowLabelSize = 1.4

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
