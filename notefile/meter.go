package notefile

import "heddle/line"

// quarter is a quarter note in beats.
const quarter = line.Quarter

// pulse returns how a bar is felt: the length of each beat, in order. Values
// are beamed within beats and cut where they would hide one.
//
// Quarters and halves are felt in quarters. Shorter units are felt in threes
// where their number is a multiple of three (6/8: two dotted quarters), else
// in twos with a three at the end (7/8: 2 + 2 + 3), as is common practice.
func pulse(m line.Meter) []line.Beat {
	unit := m.Beat()
	var beats []line.Beat
	switch {
	case m.Unit <= 4:
		for range m.Beats * int(unit/quarter) {
			beats = append(beats, quarter)
		}
	case m.Compound():
		for range m.Beats / 3 {
			beats = append(beats, 3*unit)
		}
	default:
		rest := m.Beats
		for ; rest > 3; rest -= 2 {
			beats = append(beats, 2*unit)
		}
		beats = append(beats, line.Beat(rest)*unit)
	}
	return beats
}

// middle returns the place in a bar that no value may hide, or 0: the half of
// a bar of four equal beats (4/4, 12/8).
func middle(beats []line.Beat) line.Beat {
	if len(beats) == 4 && beats[0] == beats[3] {
		return 2 * beats[0]
	}
	return 0
}

// edges returns where each beat begins and where the last one ends.
func edges(start line.Beat, beats []line.Beat) []line.Beat {
	at := []line.Beat{start}
	for _, b := range beats {
		start += b
		at = append(at, start)
	}
	return at
}
