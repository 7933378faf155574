package score

import (
	"cmp"
	"slices"

	"heddle/finger"
	"heddle/score/surface"
)

// stringY returns where a string's line lies; string 1 is the top one.
func (s *system) stringY(number int) float64 { return s.rows.tab + tabSpace*float64(number-1) }

// digitMargin is the white left of and right of a fret number on its line.
const digitMargin = 0.22

// drawTab draws the strings, broken around the numbers on them, the letters
// TAB, and the slurs and slides between numbers. The gaps would give a hidden
// line away: there each number is drawn on its own white ground.
func (s *system) drawTab(p pen) surface.Item {
	strings := s.exercise.Instrument.Strings()
	gaps := make([][]extent, strings+1)
	for _, c := range s.columns {
		if text, face, size := s.cell(c, tabRow); text != "" && !s.options.ByHeart {
			half := face.Width(text, size)/2 + digitMargin
			if n := s.exercise.Notes[c.event.Note].String; n >= 1 && n <= strings {
				gaps[n] = append(gaps[n], extent{c.x - half, c.x + half})
			}
		}
	}
	lines := surface.Rules{Width: surface.Engraving().StaffLine * p.space, Paint: surface.Hair}
	for n := 1; n <= strings; n++ {
		y, from := s.stringY(n), 0.0
		slices.SortFunc(gaps[n], func(a, b extent) int { return cmp.Compare(a.left, b.left) })
		for _, g := range gaps[n] {
			if g.left > from {
				lines.Lines = append(lines.Lines, [2]surface.Point{p.at(from, y), p.at(g.left, y)})
			}
			from = max(from, g.right)
		}
		lines.Lines = append(lines.Lines, [2]surface.Point{p.at(from, y), p.at(s.right, y)})
	}
	items := []surface.Item{lines}
	items = append(items, s.tabLetters(p)...)
	items = append(items, s.tabBows(p)...)
	return surface.Group{Class: "tab", Items: items}
}

// tabLetters draws T, A and B one above the other, as high as the strings.
func (s *system) tabLetters(p pen) []surface.Item {
	if s.exercise.Instrument.Strings() < 3 {
		return nil
	}
	height := s.tabHeight()
	size := min(2.6, height/3/surface.CapHeight*0.85)
	step := min(height/3, size*surface.CapHeight*1.25)
	middle := s.rows.tab + height/2
	var items []surface.Item
	for i, letter := range [3]string{"T", "A", "B"} {
		y := middle + step*float64(i-1) + size*surface.CapHeight/2
		items = append(items, p.text(letter, clefMargin+1.2, y, size, surface.SansBold, surface.Center, surface.Ink))
	}
	return items
}

// tabWhite draws the white around a number over its unbroken string.
func (s *system) tabWhite(p pen, x, y, width float64) surface.Shape {
	half := width/2 + digitMargin
	return p.shape(surface.Paper, surface.Pt(x-half, y-half), surface.Pt(x+half, y-half), surface.Pt(x+half, y+half), surface.Pt(x-half, y+half))
}

// tabBows draws a slur over numbers that sound from the one before, and the
// line of a slide.
func (s *system) tabBows(p pen) []surface.Item {
	e := surface.Engraving()
	var items []surface.Item
	for i := 1; i < len(s.heads); i++ {
		if !s.legato(i) || s.heads[i].event.TieFrom {
			continue
		}
		a, b := s.tabPlace(i-1), s.tabPlace(i)
		lift := surface.CapHeight*tabSize/2 + 0.15
		var bow surface.Item
		if s.strokeOf(i) == finger.Slide && a.Y == b.Y {
			rise := 0.4
			if s.fretOf(i) < s.fretOf(i-1) {
				rise = -rise
			}
			bow = p.line(a.X+1.0, a.Y+rise, b.X-1.0, b.Y-rise, e.Stem, surface.Ink)
		} else {
			bow = p.bow(surface.Pt(a.X, a.Y-lift), surface.Pt(b.X, b.Y-lift), -0.75, e.SlurEnd, e.SlurMiddle)
		}
		items = append(items, s.joined([]surface.Item{bow}, []int{s.heads[i].event.Note})...)
	}
	return items
}

func (s *system) fretOf(head int) int { return s.exercise.Notes[s.heads[head].event.Note].Fret }

func (s *system) tabPlace(head int) surface.Point {
	h := s.heads[head]
	return surface.Pt(h.x, s.stringY(s.exercise.Notes[h.event.Note].String))
}
