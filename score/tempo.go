package score

import (
	"fmt"
	"math"
	"strconv"

	"heddle/line"
)

// tempoSize is the size of the tempo mark's text in staff spaces.
const tempoSize = 2.0

// drawTempo draws the beat, its tempo and the swing at a baseline.
func (s *system) drawTempo(p pen, y float64) []Item {
	if s.exercise.Tempo <= 0 {
		return nil
	}
	small := pen{p.origin, p.space * 0.85}
	sign, dotted := MetronomeQuarter, false
	tempo := s.exercise.Tempo
	if m := s.exercise.Rhythm.Meter; m.Unit >= 8 && m.Beats%3 == 0 {
		if d := tempo / 1.5; d == math.Trunc(d) {
			dotted, tempo = true, d
		}
	} else if m.Unit == 2 {
		sign = MetronomeHalf
		tempo /= 2
	}
	at := func(x float64) float64 { return x / 0.85 }
	x := clefMargin
	items := []Item{small.sign(sign, at(x), at(y))}
	x += sign.width()*0.85 + 0.1
	if dotted {
		items = append(items, small.sign(MetronomeDot, at(x+0.15), at(y)))
		x += 0.55
	}
	text := "= " + strconv.FormatFloat(tempo, 'g', 4, 64)
	x += 0.45
	items = append(items, p.text(text, x, y, tempoSize, SerifBold, Left, Ink))
	x += SerifBold.Width(text, tempoSize) + 1.8
	if capo := s.exercise.Instrument.Capo; capo > 0 {
		text := fmt.Sprintf("Capo %d", capo)
		items = append(items, p.text(text, x, y, tempoSize, Serif, Left, Ink))
		x += Serif.Width(text, tempoSize) + 1.8
	}
	return append(items, s.drawSwing(p, x, y)...)
}

// drawSwing draws the swing mark: for 2:1 as a pair of eighths that sounds as
// a triplet's quarter and eighth, for other ratios in words.
func (s *system) drawSwing(p pen, x, y float64) []Item {
	swing := s.exercise.Rhythm.Swing
	if swing.Long == swing.Short || swing.Long <= 0 || swing.Short <= 0 {
		return nil
	}
	text := "Swing"
	if swing != (line.Swing{Long: 2, Short: 1}) {
		return []Item{p.text(fmt.Sprintf("Swing %d:%d", swing.Long, swing.Short), x, y, tempoSize, SerifBold, Left, Ink)}
	}
	items := []Item{p.text(text, x, y, tempoSize, SerifBold, Left, Ink)}
	x += SerifBold.Width(text, tempoSize) + 0.8
	items = append(items, p.text("(", x, y, tempoSize, Serif, Left, Ink))
	x += 0.9
	items = append(items, smallPair(p, x, y, false)...)
	x += 3.0
	items = append(items, p.text("=", x, y, tempoSize, Serif, Left, Ink))
	x += 1.9
	items = append(items, smallPair(p, x, y, true)...)
	return append(items, p.text(")", x+3.1, y, tempoSize, Serif, Left, Ink))
}

// smallPair draws two small notes at a baseline: two eighths, or a quarter
// and an eighth of a triplet.
func smallPair(p pen, x, y float64, triplet bool) []Item {
	const scale = 0.62
	e := music().engraving
	q := pen{p.at(x, y), p.space * scale}
	head := music().glyphs[NoteheadBlack]
	right := 2.4 // from head to head
	first, second := head.anchors.StemUpSE[0]-e.Stem/2, right+head.anchors.StemUpSE[0]-e.Stem/2
	top := -0.5 - 2.9
	items := []Item{
		q.sign(NoteheadBlack, 0, -0.5), q.sign(NoteheadBlack, right, -0.5),
		q.line(first, -0.5-head.anchors.StemUpSE[1], first, top, e.Stem, Ink),
		q.line(second, -0.5-head.anchors.StemUpSE[1], second, top, e.Stem, Ink),
	}
	if !triplet {
		return append(items, q.shape(Ink,
			Point{first - e.Stem/2, top}, Point{second + e.Stem/2, top},
			Point{second + e.Stem/2, top + e.Beam}, Point{first - e.Stem/2, top + e.Beam}))
	}
	items = append(items, q.sign(FlagEighthUp, second-e.Stem/2, top))
	mark := tupletMark{number: 3, from: -0.1, to: right + 1.9, y0: top - 1.1, y1: top - 1.1, above: true, bracketed: true}
	return append(items, mark.draw(q)...)
}
