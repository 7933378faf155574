package finger

import "heddle/neck"

// A Hand sums up how much the hands move in a line.
type Hand struct {
	// TravelMM is how far the first finger's position moves in all: the sum of
	// the distances along the neck from each stopped note to the next, whether
	// the first finger plays or not. Open strings do not move it, and the first
	// note is free.
	TravelMM float64

	// WidestMM is the widest distance along the neck between the lowest and the
	// highest fret stopped in one position.
	WidestMM float64

	// Crossings counts the notes on another string than the note before.
	Crossings int

	// EffortMM is the cost of the whole line in mm of hand travel at the
	// reference pace. It compares two fingerings of the same notes.
	EffortMM float64
}

// measure sums up a path.
func measure(in neck.Instrument, path []way) Hand {
	var h Hand
	var first, low, high int8 // the hand's place and the frets stopped there
	for i := range path {
		w := &path[i]
		if i > 0 && w.string != path[i-1].string {
			h.Crossings++
		}
		if w.finger == 0 {
			continue
		}
		if w.position.first != first {
			if first != 0 {
				h.TravelMM += apart(in, first, w.position.first)
			}
			first, low, high = w.position.first, w.fret, w.fret
		}
		low, high = min(low, w.fret), max(high, w.fret)
		h.WidestMM = max(h.WidestMM, apart(in, low, high))
	}
	if len(path) > 0 {
		h.EffortMM = float64(path[len(path)-1].total) / float64(mm)
	}
	return h
}

// apart returns the distance between two frets in mm.
func apart(in neck.Instrument, a, b int8) float64 {
	if a > b {
		a, b = b, a
	}
	return in.FretMM(int(b)) - in.FretMM(int(a))
}
