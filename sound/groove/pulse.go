// Package groove holds what each voice of a band plays in one pulse of a bar:
// cells to choose from, for funk, swing and ballad, in any metre. When they
// sound, and who plays them, is left to others.
package groove

import (
	"heddle/line"
	"heddle/sound/dsp"
)

// A Pulse is what a groove is built from: a quarter of four sixteenths, or in
// compound and uneven metres a dotted quarter of six.
type Pulse struct {
	Start line.Beat // from the bar line
	Slots int       // sixteenths: 4 or 6
	room  int       // sixteenths of it that the bar has room for
	role  role
}

// A role is a pulse's place in the bar.
type role int

// The roles.
const (
	firstPulse role = iota // the bar's first pulse
	backPulse              // the second, fourth … : where the snare answers
	innerPulse             // the third, fifth …
)

// Slot is the length of a groove's smallest step.
const Slot = line.Quarter / 4

// Beats returns the beats a bar is felt in and the length of one: dotted
// where eighths or sixteenths come in threes (3/8, 6/8, 9/8, 12/8), else the
// metre's own.
func Beats(m line.Meter) (beats int, length line.Beat) {
	if m.Compound() {
		return m.Beats / 3, 3 * m.Beat()
	}
	return m.Beats, m.Beat()
}

// Pulses divides a bar into pulses. Metres in quarters have one on each;
// compound metres one on each dotted quarter; other metres in eighths go in
// twos with a three at the end (7/8 is 2+2+3), as is common practice.
func Pulses(m line.Meter) []Pulse {
	total := int(m.Bar() / Slot)
	var lengths []int
	switch beats, length := Beats(m); {
	case length == 6*Slot:
		for range beats {
			lengths = append(lengths, 6)
		}
	default:
		left := total
		for ; left >= 8; left -= 4 {
			lengths = append(lengths, 4)
		}
		switch {
		case left == 6 || left == 4:
			lengths = append(lengths, left)
		case left == 7 || left == 5: // an odd sixteenth goes to the last pulse's end as rest
			lengths = append(lengths, left-1)
		case left > 0 && len(lengths) == 0:
			lengths = append(lengths, 4)
		}
	}
	pulses := make([]Pulse, len(lengths))
	at := line.Beat(0)
	for i, n := range lengths {
		pulses[i] = Pulse{at, n, min(n, total-int(at/Slot)), firstPulse}
		if i > 0 {
			pulses[i].role = backPulse
			if i%2 == 0 {
				pulses[i].role = innerPulse
			}
		}
		at += line.Beat(n) * Slot
	}
	return pulses
}

// A Cell is what one voice of a groove plays in one pulse, a letter for each
// sixteenth: X strong, x plain, o soft, anything else nothing.
type Cell string

// forces holds what the letters of a cell mean, as force from 0 to 1.
func Force(letter byte) float64 {
	switch letter {
	case 'X':
		return 1
	case 'x':
		return 0.78
	case 'o':
		return 0.45
	}
	return 0
}

// A Figure is what a voice may play: for each role, the cells to choose from.
// The first is the one to come home to. Pulses of six use the cells of six
// letters; a figure without any leaves such pulses to its cells of four.
type Figure [3][]Cell

// Choose returns a cell for a pulse. What the groove is comes from its home
// dice and stays the same from pass to pass; the other dice now and then
// chooses freely.
func (f Figure) Choose(p Pulse, home, free *dsp.Dice, stray float64) Cell {
	var fitting []Cell
	for _, c := range f[p.role] {
		if len(c) == p.Slots {
			fitting = append(fitting, c)
		}
	}
	if len(fitting) == 0 {
		fitting = f[p.role]
	}
	if len(fitting) == 0 {
		return ""
	}
	at, roll := home.Below(len(fitting)), free.Below(len(fitting))
	if free.Unit() < stray {
		at = roll
	}
	return fitting[at][:min(len(fitting[at]), p.room)]
}
