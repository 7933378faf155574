package notefile

import "heddle/line"

// writeTuplets draws the spans between two points that do not lie on
// power-of-two divisions. Where a note begins in the middle, or a rest lies
// across it, the halves are drawn apart, so that a tuplet is no longer than it
// must be.
func writeTuplets(from, to line.Beat, spans []span) []symbol {
	if !uneven([]line.Beat{from, to}, spans) {
		return writePlain([]line.Beat{from, to}, 0, spans)
	}
	unit := unitOf(from, to, spans)
	if mid := (from + to) / 2; (to-from)%(2*unit) == 0 && partsAt(spans, mid) {
		return append(writeTuplets(from, mid, clip(spans, from, mid)), writeTuplets(mid, to, clip(spans, mid, to))...)
	}
	return writeTuplet(from, to, unit, spans)
}

// unitOf returns the longest unit in which a stretch and every beginning and
// end in it are whole.
func unitOf(from, to line.Beat, spans []span) line.Beat {
	unit := to - from
	for _, s := range spans {
		unit = gcd(unit, gcd(s.Start-from, s.End-from))
	}
	return unit
}

// partsAt reports whether the spans can be parted at t without cutting a note.
func partsAt(spans []span, t line.Beat) bool {
	for _, s := range spans {
		if s.Start < t && s.End > t && s.Note != rest {
			return false
		}
	}
	return true
}

// writeTuplet draws one tuplet: the units of the stretch against the next
// smaller power of two (3:2, 5:4, 6:4, 15:8).
func writeTuplet(from, to, unit line.Beat, spans []span) []symbol {
	actual := int((to - from) / unit)
	normal := 1
	for 2*normal < actual {
		normal *= 2
	}
	kind := typeIndex(int(to-from), normal)
	for kind < 0 || kind > shortestType {
		normal /= 2
		kind = typeIndex(int(to-from), normal)
	}
	var symbols []symbol
	for _, s := range spans {
		t := s.Start
		for _, piece := range unitPieces(int((s.End - s.Start) / unit)) {
			end := t + line.Beat(piece)*unit
			v := value{Actual: actual, Normal: normal}
			v.Type, v.Dots = tupletType(kind, piece)
			symbols = append(symbols, symbol{span: span{t, end, s.Note}, value: v})
			t = end
		}
	}
	symbols[0].TupletOpens = true
	symbols[len(symbols)-1].TupletCloses = true
	return symbols
}

// tupletType returns the type and dots of so many units of the type.
func tupletType(kind, units int) (string, int) {
	dots := 0
	if units%3 == 0 {
		units, dots = units/3*2, 1
	}
	for units > 1 {
		units /= 2
		kind--
	}
	return valueTypes[kind], dots
}

// gcd returns the greatest common divisor; that of 0 and b is b.
func gcd(a, b line.Beat) line.Beat {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
