// Package groove holds what the band plays in each of its grooves: patterns of
// a bar or two for every limb of the drummer, the keys and the bass, in any
// metre. When they sound, and on what, is left to others.
package groove

import "heddle/line"

// A Pulse is what a groove is built from: a quarter of four sixteenths, or in
// compound and uneven metres a dotted quarter of six.
type Pulse struct {
	Start line.Beat // from the bar line
	Slots int       // sixteenths: 4 or 6
	room  int       // sixteenths of it that the bar has room for
	cell  int       // which cell of a bar of four pulses it plays, −1 for 0 and 1 or 2 and 3 by turns
}

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
		pulses[i] = Pulse{at, n, min(n, total-int(at/Slot)), cellOf(i, len(lengths))}
		at += line.Beat(n) * Slot
	}
	return pulses
}

// cellOf says which cell of a bar of four pulses a pulse plays: the first is the
// one, the odd ones are where the snare answers, the last leads on. Bars of
// two pulses go in pairs.
func cellOf(i, pulses int) int {
	switch {
	case pulses == 2:
		return -1
	case i == 0:
		return 0
	case i%2 == 0:
		return 2
	case i == pulses-1:
		return 3
	}
	return 1
}
