package finger

import (
	"math"

	"heddle/neck"
)

// A position is the position of the fretting hand: the fret of the first finger
// and how many frets above it the fourth is. The zero position is a hand that is
// not on the neck yet, before the first stopped note.
type position struct {
	first int8
	span  int8
}

// stops returns the lowest and highest fret that the finger reaches without
// moving the hand; low is above high if it reaches none. With one finger per fret
// each has one; in a wider hand, the second and third share the frets between
// first and fourth. A hand that can't span four frets puts its fourth finger on
// the third fret, supported by the third, as bass players do low on the neck.
func (p position) stops(finger int8) (low, high int8) {
	if p.span >= onePerFret {
		switch finger {
		case 1:
			return p.first, p.first
		case 2:
			return p.first + 1, p.first + p.span - 2
		case 3:
			return p.first + 2, p.first + p.span - 1
		}
		return p.first + p.span, p.first + p.span
	}
	switch {
	case finger <= 2 && finger-1 <= p.span:
		return p.first + finger - 1, p.first + finger - 1
	case finger == 4 && p.span == 2:
		return p.first + 2, p.first + 2
	}
	return 1, 0
}

// A fingerboard is the geometry of the neck for one player's hand.
type fingerboard struct {
	at        []effort // distance of each fret from the nut, past the last fret as far as a hand hovers
	last      int      // the highest fret
	narrowest []int8   // the hand's usual span with the first finger on each fret
	widest    []int8   // the widest
}

// newFingerboard measures the instrument against a reach in mm.
func newFingerboard(in neck.Instrument, reachMM float64) fingerboard {
	last := in.LastFret()
	b := fingerboard{
		at:        make([]effort, last+widestHand+1),
		last:      last,
		narrowest: make([]int8, last+1),
		widest:    make([]int8, last+1),
	}
	for fret := range b.at {
		b.at[fret] = effort(math.Round(in.FretMM(fret) * float64(mm)))
	}
	for first := 1; first <= last; first++ {
		span := int8(widestHand)
		for span > 0 && math.Round(in.FretMM(first+int(span))-in.FretMM(first)) > reachMM {
			span--
		}
		b.narrowest[first] = min(span, onePerFret)
		// Opening past the last fret would reach for nothing.
		b.widest[first] = max(b.narrowest[first], min(span, int8(last-first)))
	}
	return b
}

// width returns the distance between the first and fourth finger.
func (b *fingerboard) width(p position) effort { return b.at[p.first+p.span] - b.at[p.first] }

// hold returns the cost of keeping the hand in the position for one note.
func (b *fingerboard) hold(p position) effort {
	cost := max(0, b.width(p)-comfortMM*mm) * strainPercent / 100
	if p.span > onePerFret {
		cost += (b.at[p.first+p.span] - b.at[p.first+onePerFret]) * openedPercent / 100
	}
	return cost
}

// move splits the movement from p to q into how far the whole hand moves and how
// far it opens or closes besides.
func (b *fingerboard) move(p, q position) (travel, opening effort) {
	first := b.at[q.first] - b.at[p.first]
	fourth := b.at[q.first+q.span] - b.at[p.first+p.span]
	if first < 0 {
		first, fourth = -first, -fourth
	}
	if fourth < 0 {
		return 0, first - fourth
	}
	travel = min(first, fourth)
	return travel, max(first, fourth) - travel
}
