package score

import (
	"fmt"
	"math"
	"strconv"

	"heddle/line"
	"heddle/score/surface"
)

// tempoSize is the size of the tempo mark's text in staff spaces.
const tempoSize = 2.0

// metronomeSigns are the signs of the notes that a tempo counts, by how often a
// whole note is halved.
var metronomeSigns = map[int]surface.Sign{1: surface.MetronomeHalf, 2: surface.MetronomeQuarter, 3: surface.MetronomeEighth}

// drawTempo draws the beat, its tempo and the swing at a baseline.
func (s *system) drawTempo(p pen, y float64) []surface.Item {
	if s.exercise.Tempo <= 0 {
		return nil
	}
	small := pen{p.origin, p.space * 0.85}
	counted := s.exercise.Rhythm.Meter.Counted()
	unit, _ := line.NoteValueOf(counted)
	sign := metronomeSigns[unit.Halvings]
	tempo := s.exercise.Tempo * float64(line.Quarter) / float64(counted)
	at := func(x float64) float64 { return x / 0.85 }
	x := clefMargin
	items := []surface.Item{small.sign(sign, at(x), at(y))}
	x += sign.Width()*0.85 + 0.1
	if unit.Dots > 0 {
		items = append(items, small.sign(surface.MetronomeDot, at(x+0.15), at(y)))
		x += 0.55
	}
	text := "= " + strconv.FormatFloat(math.Round(tempo*10)/10, 'f', -1, 64)
	x += 0.45
	items = append(items, p.text(text, x, y, tempoSize, surface.SerifBold, surface.Left, surface.Ink))
	x += surface.SerifBold.Width(text, tempoSize) + 1.8
	if capo := s.exercise.Instrument.Capo; capo > 0 {
		text := fmt.Sprintf("Capo %d", capo)
		items = append(items, p.text(text, x, y, tempoSize, surface.Serif, surface.Left, surface.Ink))
		x += surface.Serif.Width(text, tempoSize) + 1.8
	}
	return append(items, s.drawSwing(p, x, y)...)
}

// drawSwing draws the swing mark: for 2:1 as a pair of eighths that sounds as
// a triplet's quarter and eighth, for other ratios in words.
func (s *system) drawSwing(p pen, x, y float64) []surface.Item {
	swing := s.exercise.Rhythm.Swing
	if swing.Long == swing.Short || swing.Long <= 0 || swing.Short <= 0 {
		return nil
	}
	text := "Swing"
	if swing != (line.Swing{Long: 2, Short: 1}) {
		return []surface.Item{p.text(fmt.Sprintf("Swing %d:%d", swing.Long, swing.Short), x, y, tempoSize, surface.SerifBold, surface.Left, surface.Ink)}
	}
	items := []surface.Item{p.text(text, x, y, tempoSize, surface.SerifBold, surface.Left, surface.Ink)}
	x += surface.SerifBold.Width(text, tempoSize) + 0.8
	items = append(items, p.text("(", x, y, tempoSize, surface.Serif, surface.Left, surface.Ink))
	x += 0.9
	items = append(items, smallPair(p, x, y, false)...)
	x += 3.0
	items = append(items, p.text("=", x, y, tempoSize, surface.Serif, surface.Left, surface.Ink))
	x += 1.9
	items = append(items, smallPair(p, x, y, true)...)
	return append(items, p.text(")", x+3.1, y, tempoSize, surface.Serif, surface.Left, surface.Ink))
}

// smallPair draws two small notes at a baseline: two eighths, or a quarter
// and an eighth of a triplet.
func smallPair(p pen, x, y float64, triplet bool) []surface.Item {
	const scale = 0.62
	e := surface.Engraving()
	q := pen{p.at(x, y), p.space * scale}
	head := surface.NoteheadBlack.Anchors()
	right := 2.4 // from head to head
	first, second := head.StemUpSE[0]-e.Stem/2, right+head.StemUpSE[0]-e.Stem/2
	top := -0.5 - 2.9
	items := []surface.Item{
		q.sign(surface.NoteheadBlack, 0, -0.5), q.sign(surface.NoteheadBlack, right, -0.5),
		q.line(first, -0.5-head.StemUpSE[1], first, top, e.Stem, surface.Ink),
		q.line(second, -0.5-head.StemUpSE[1], second, top, e.Stem, surface.Ink),
	}
	if !triplet {
		return append(items, q.shape(surface.Ink,
			surface.Pt(first-e.Stem/2, top), surface.Pt(second+e.Stem/2, top),
			surface.Pt(second+e.Stem/2, top+e.Beam), surface.Pt(first-e.Stem/2, top+e.Beam)))
	}
	items = append(items, q.sign(surface.FlagEighthUp, second-e.Stem/2, top))
	mark := tupletMark{number: 3, from: -0.1, to: right + 1.9, y0: top - 1.1, y1: top - 1.1, above: true, bracketed: true}
	return append(items, mark.draw(q)...)
}
