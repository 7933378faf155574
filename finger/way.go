package finger

import "heddle/neck"

// A pick is what the picking hand does for a note.
type pick int8

const (
	pickDown pick = iota
	pickUp
	slur // hammer-on, pull-off or slide: the pick rests
)

// A way is one way to play one note, and the best path that ends in it.
type way struct {
	total    effort // of the best path from the first note to here
	back     int32  // the way before it on that path
	string   int8
	fret     int8
	finger   int8 // 0 for an open string
	position position
	pick     pick
}

// A grasp is one way to stop a fret: a finger, the hand's position, and the cost
// of holding them for a note.
type grasp struct {
	finger   int8
	position position
	cost     effort
}

// grasps lists every grasp of a fret: lower positions last, narrower hands first,
// then fingers in order. In a tie, the hand under the note wins over one that
// reaches up to it.
func (b *fingerboard) grasps(fret int) []grasp {
	var list []grasp
	for first := fret; first >= max(1, fret-widestHand); first-- {
		for span := b.narrowest[first]; span <= b.widest[first]; span++ {
			p := position{first: int8(first), span: span}
			for finger := int8(1); finger <= 4; finger++ {
				low, high := p.stops(finger)
				if int8(fret) >= low && int8(fret) <= high {
					list = append(list, grasp{finger, p, weakness[finger] + b.hold(p)})
				}
			}
		}
	}
	return list
}

// weakness is the cost of using each finger, and bending that of pushing a string
// with it.
var (
	weakness = [5]effort{0, 0, weakSecond, weakThird, weakFourth}
	bending  = [5]effort{0, bendFirst, bendSecond, 0, bendFourth}
)

// fretting returns the cost of the fretting hand's change from one way to the next
// at the usual pace.
func (b *fingerboard) fretting(from, to *way, c *change) effort {
	if to.finger == 0 {
		if from.position != to.position {
			return never // an open string leaves the hand where it was
		}
		return 0
	}
	if from.position.first == 0 {
		return 0 // the hand comes down for the first time
	}
	var cost effort
	shifted := false
	if from.position != to.position {
		travel, opening := b.move(from.position, to.position)
		cost = opening * openingPercent / 100
		if shifted = travel > 0; shifted {
			cost += travel + c.shift
			if to.finger != leading(from.position, to.position) {
				cost += shiftUnled
			}
		}
	}
	if from.finger == 0 {
		return cost * fromOpenPercent / 100
	}
	return cost + fingers(from, to, shifted)
}

// leading returns the finger that leads a shift.
func leading(from, to position) int8 {
	if to.first > from.first {
		return 1
	}
	return 4
}

// fingers returns the cost of two fingers in turn on stopped notes, besides the
// hand's own movement.
func fingers(from, to *way, shifted bool) effort {
	if from.finger == to.finger {
		return sameFinger(from, to, shifted)
	}
	if from.fret == to.fret && from.string == to.string {
		return fingerChanged
	}
	low, high := from, to
	if low.finger > high.finger {
		low, high = high, low
	}
	frets := int(high.fret - low.fret)
	switch {
	case shifted && frets < 0 && low.string == high.string && high.finger-low.finger == 1:
		return fingersCrossed + crowding(low, high, -frets)
	case shifted:
		return crowding(low, high, max(frets, -frets))
	case frets < 0:
		return never
	}
	return stretch(low.finger, high.finger, frets)
}

// sameFinger returns the cost of using a finger twice in turn.
func sameFinger(from, to *way, shifted bool) effort {
	switch {
	case from.fret == to.fret && from.string == to.string:
		return 0
	case from.fret == to.fret:
		return fingerRoll
	case !shifted:
		return never
	case from.string != to.string:
		return fingerJump
	case to.finger == 4:
		return fingerGuide + guideFourth
	}
	return fingerGuide
}

// crowding returns the cost of fewer frets between two fingers, after a movement of
// the hand, than between their numbers.
func crowding(low, high *way, frets int) effort {
	if strings := low.string - high.string; strings < -1 || strings > 1 {
		return 0
	}
	return effort(max(0, int(high.finger-low.finger)-frets)) * fingersCrowded
}

// stretch returns the cost of more frets between two fingers, the lower one first,
// than between their numbers.
func stretch(low, high int8, frets int) effort {
	beyond := effort(max(0, frets-int(high-low)))
	switch {
	case low == 1:
		return beyond * stretchFirstSecond
	case high == 4:
		return beyond * stretchThirdFourth
	}
	return beyond * stretchSecondThird
}

// spot returns the spot of the way.
func (w *way) spot() neck.Spot { return neck.Spot{String: int(w.string), Fret: int(w.fret)} }
