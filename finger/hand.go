package finger

import "heddle/neck"

// A Hand is what the whole line asks of the hands.
type Hand struct {
	// TravelMM is how far the place of the first finger moves in all: the sum,
	// from each stopped note to the next, of the distance along the neck
	// between the frets where the first finger lies, whether it plays or not.
	// Open strings leave it where it was, and coming down for the first note
	// is free.
	TravelMM float64

	// WidestMM is the widest distance along the neck between the lowest and
	// the highest fret stopped while the first finger's place stays the same.
	WidestMM float64

	// Crossings counts the notes that are on another string than the note
	// before.
	Crossings int

	// EffortMM is what the whole line costs by this package's costs, in mm of
	// hand travel at the reference pace. Two fingerings of the same notes
	// compare by it.
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
