package sound

import "heddle/line"

// A pulse is what a groove is built from: a quarter of four sixteenths, or in
// compound and uneven metres a dotted quarter of six.
type pulse struct {
	start line.Beat // from the bar line
	slots int       // sixteenths: 4 or 6
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

// slot is the length of a groove's smallest step.
const slot = line.Quarter / 4

// pulsesOf divides a bar into pulses. Metres in quarters have one on each;
// compound metres one on each dotted quarter; other metres in eighths go in
// twos with a three at the end (7/8 is 2+2+3), as is common practice.
func pulsesOf(m line.Meter) []pulse {
	total := int(m.Bar() / slot)
	var lengths []int
	switch beats, length := beatsOf(m); {
	case length == 6*slot:
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
	pulses := make([]pulse, len(lengths))
	at := line.Beat(0)
	for i, n := range lengths {
		pulses[i] = pulse{at, n, min(n, total-int(at/slot)), firstPulse}
		if i > 0 {
			pulses[i].role = backPulse
			if i%2 == 0 {
				pulses[i].role = innerPulse
			}
		}
		at += line.Beat(n) * slot
	}
	return pulses
}

// A cell is what one voice of a groove plays in one pulse, a letter for each
// sixteenth: X strong, x plain, o soft, anything else nothing.
type cell string

// forces holds what the letters of a cell mean, as force from 0 to 1.
func forceOf(letter byte) float64 {
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

// A figure is what a voice may play: for each role, the cells to choose from.
// The first is the one to come home to. Pulses of six use the cells of six
// letters; a figure without any leaves such pulses to its cells of four.
type figure [3][]cell

// choose returns a cell for a pulse. What the groove is comes from its home
// dice and stays the same from pass to pass; the other dice now and then
// chooses freely.
func (f figure) choose(p pulse, home, free *dice, stray float64) cell {
	var fitting []cell
	for _, c := range f[p.role] {
		if len(c) == p.slots {
			fitting = append(fitting, c)
		}
	}
	if len(fitting) == 0 {
		fitting = f[p.role]
	}
	if len(fitting) == 0 {
		return ""
	}
	at, roll := home.below(len(fitting)), free.below(len(fitting))
	if free.unit() < stray {
		at = roll
	}
	return fitting[at][:min(len(fitting[at]), p.room)]
}
