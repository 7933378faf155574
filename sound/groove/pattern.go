package groove

import (
	"strings"

	"heddle/line"
	"heddle/sound/dsp"
)

// A Pattern is what one voice plays in a bar of four pulses, "X..x .... ..X. ....",
// or in two, with a bar line between. Each cell is one pulse: four letters are
// its sixteenths, three its triplets. X is strong, x plain, o soft; h, m and l
// are the high, middle and low tom. Bass patterns hold degrees instead: 1 the root,
// 8 its octave, 3, 5 and 7 those of the chord, a the approach to what comes next, d
// a dead note. Anything else is a rest.
type Pattern string

// A Figure is what a voice may play.
type Figure []Pattern

// A Stroke is a letter of a pattern at its place in the bar.
type Stroke struct {
	Letter byte
	At     line.Beat
	Plain  bool // a triplet: it is where it is written, whatever swings
}

// Force is what a letter means, from 0 to 1.
func Force(letter byte) float64 {
	switch letter {
	case 'X':
		return 1
	case 'x', 'h', 'm', 'l':
		return 0.78
	case 'o':
		return 0.45
	}
	return 0
}

// Bar returns what the figure plays in a bar. Which pattern it comes home to
// is up to the home dice and stays the same all through a piece. The free dice now
// and then takes another bar, or another pulse, as often as stray says.
func (f Figure) Bar(bar int, pulses []Pulse, home dsp.Dice, free *dsp.Dice, stray float64) []Stroke {
	if len(f) == 0 {
		return nil
	}
	base := home.Below(len(f))
	if free.Unit() < stray/2 {
		base = free.Below(len(f))
	}
	var strokes []Stroke
	for _, p := range pulses {
		which := base
		if free.Unit() < stray {
			which = free.Below(len(f))
		}
		strokes = append(strokes, p.Cell(f[which].cell(bar, p.in(bar)))...)
	}
	return strokes
}

// in says which cell a pulse plays in a bar.
func (p Pulse) in(bar int) int {
	if p.cell >= 0 {
		return p.cell
	}
	first := 2 * (bar % 2)
	if p.Start > 0 {
		first++
	}
	return first
}

// cell returns one cell of the pattern; a bar without any is a rest.
func (p Pattern) cell(bar, cell int) string {
	bars := strings.Split(string(p), "|")
	cells := strings.Fields(bars[bar%len(bars)])
	if len(cells) == 0 {
		return "...."
	}
	return cells[cell]
}

// inSix is where the letters of a cell of four lie in a pulse of six
// sixteenths: its second half is the third eighth, as in a shuffle.
var inSix = [4]line.Beat{0, 2, 4, 5}

// Cell places the letters of a cell.
func (p Pulse) Cell(cell string) (strokes []Stroke) {
	step := line.Beat(p.Slots) * Slot / line.Beat(len(cell))
	for i := range len(cell) {
		if cell[i] == '.' {
			continue
		}
		at := line.Beat(i) * step
		if p.Slots == 6 && len(cell) == 4 {
			at = inSix[i] * Slot
		}
		if at < line.Beat(p.room)*Slot {
			strokes = append(strokes, Stroke{cell[i], p.Start + at, len(cell)%3 == 0})
		}
	}
	return strokes
}

// Cells returns the cells of a fill.
func Cells(fill string) []string { return strings.Fields(fill) }
