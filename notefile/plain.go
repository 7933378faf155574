package notefile

import "heddle/line"

// writePlain draws spans that lie on power-of-two divisions. Beats begin and
// end at the points of at; mid is the distance from the first point to the
// place no value may hide, or 0.
func writePlain(at []line.Beat, mid line.Beat, spans []span) []symbol {
	var symbols []symbol
	for _, s := range spans {
		for t := s.Start; t < s.End; {
			end := plainEnd(at, mid, t, s)
			v, _ := plainValue(end - t)
			symbols = append(symbols, symbol{span: span{t, end, s.Note}, value: v})
			t = end
		}
	}
	return symbols
}

// plainEnd returns where the value that begins at t, inside s, ends.
//
// A value that begins inside a beat ends by the end of that beat. One that
// begins on a beat covers as many whole beats as one value can, or a beat and
// a half, without hiding the middle of the bar; only a half note on the second
// of four quarters may (quarter, half, quarter is read at sight). Rests cover
// one beat, or a half bar from its beginning, and bear no dot in beats of two.
func plainEnd(at []line.Beat, mid, t line.Beat, s span) line.Beat {
	beat := 0
	for beat+2 < len(at) && at[beat+1] <= t {
		beat++
	}
	if t > at[beat] || s.End < at[beat+1] {
		return insideEnd(t, min(s.End, at[beat+1]), s.Note == rest && powerOfTwo(at[beat+1]-at[beat]))
	}
	if s.Note == rest {
		if mid > 0 && (t == at[0] || t == at[0]+mid) && s.End >= t+mid {
			return t + mid
		}
		return insideEnd(t, at[beat+1], false)
	}
	barrier := at[len(at)-1]
	if mid > 0 && t > at[0] && t < at[0]+mid {
		barrier = at[0] + mid
		if s.End == t+mid && mid == 2*quarter {
			return s.End
		}
	}
	best := at[beat+1]
	if _, ok := plainValue(best - t); !ok {
		return insideEnd(t, best, false)
	}
	for _, end := range append([]line.Beat{s.End}, at[beat+1:]...) {
		_, ok := plainValue(end - t)
		halfBeat := end == s.End && 2*(end-t) == 3*(at[beat+1]-at[beat])
		onBeat := end != s.End || isEdge(at, end)
		if ok && end > best && end <= min(s.End, barrier) && (onBeat || halfBeat) {
			best = end
		}
	}
	return best
}

// isEdge reports whether t is one of the points.
func isEdge(at []line.Beat, t line.Beat) bool {
	for _, edge := range at {
		if edge == t {
			return true
		}
	}
	return false
}

// insideEnd returns the end of the longest value from t to no later than end;
// undotted takes only values without a dot, as rests want.
func insideEnd(t, end line.Beat, undotted bool) line.Beat {
	longest := t
	for length := longestType; length >= grain; length /= 2 {
		if t+length <= end {
			longest = t + length
			break
		}
	}
	if length := longest - t; !undotted && length >= 2*grain && longest+length/2 <= end {
		longest += length / 2
	}
	return longest
}
