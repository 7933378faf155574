package line

import "slices"

// A Tuplet is a stretch of a bar divided into another number of parts than the
// metre's.
type Tuplet struct {
	Start, End Beat
	Actual     int // the printed digit: this many notes
	Normal     int // are played in the time of this many
}

// Opens reports whether the sign is the first of its tuplet.
func (w *Written) Opens() bool { return w.Tuplet != nil && w.Start == w.Tuplet.Start }

// Closes reports whether the sign is the last of its tuplet.
func (w *Written) Closes() bool { return w.Tuplet != nil && w.End == w.Tuplet.End }

// tupletPulse returns the pulse in which a bar with tuplets is written: the metre's,
// or quarters if notes of a compound metre would otherwise cross from one tuplet to
// the next.
func tupletPulse(p Pulse, b Bar, spans []Span) Pulse {
	if p.Bar()%Quarter != 0 || (b.Start-b.Downbeat)%Quarter != 0 || closed(p.frames(spans), spans) {
		return p
	}
	inQuarters := Meter{Beats: int(p.Bar() / Quarter), Unit: 4}
	if inQuarters.Check() != nil {
		return p
	}
	if quarters := PulseOf(inQuarters).from(b.Downbeat); closed(quarters.frames(spans), spans) {
		return quarters
	}
	return p
}

// frames returns the edges of the stretches in which tuplets are drawn: beats, or
// their quarters. A beat of three is divided into three parts, or into two and one,
// if no note then crosses from one tuplet to the next.
func (p Pulse) frames(spans []Span) []Beat {
	frames := []Beat{p.edges[0]}
	for beat := range p.strong {
		from, to := p.Span(beat)
		if inThrees(to - from) {
			frames = append(frames, threeFrames(from, to, spans)...)
			continue
		}
		for step := min(to-from, Quarter); from < to; from += step {
			frames = append(frames, from+step)
		}
	}
	return frames
}

// threeFrames returns the ends of the frames in a beat of three.
func threeFrames(from, to Beat, spans []Span) []Beat {
	third := (to - from) / 3
	parts := []Beat{from, from + third, to - third, to}
	for _, frames := range [...][]Beat{parts, {from, to - third, to}, {from, from + third, to}} {
		if closed(frames, spans) {
			return frames[1:]
		}
	}
	return parts[1:]
}

// closed reports whether no span crosses the edge of a frame that needs a
// tuplet.
func closed(frames []Beat, spans []Span) bool {
	for i := 1; i < len(frames); i++ {
		from, to := frames[i-1], frames[i]
		if !uneven(clip(spans, from, to)) {
			continue
		}
		for _, s := range spans {
			if s.Start < from && s.End > from || s.Start < to && s.End > to {
				return false
			}
		}
	}
	return true
}

// widen joins two quarters whose notes are the thirds of both into a tuplet of
// quarters, unless it would hide a position stronger than its beginning.
func widen(p Pulse, frames []Beat, spans []Span) []Beat {
	for i := 0; i+2 < len(frames); i++ {
		from, middle, to := frames[i], frames[i+1], frames[i+2]
		if middle-from == Quarter && to-middle == Quarter && p.strength(middle) <= p.strength(from) && inThirds(from, to, spans) {
			frames = slices.Delete(frames, i+1, i+2)
		}
	}
	return frames
}

// inThirds reports whether spans begin at thirds of a stretch and nowhere else
// inside it.
func inThirds(from, to Beat, spans []Span) bool {
	found := false
	for _, s := range spans {
		if s.Start <= from || s.Start >= to {
			continue
		}
		if (s.Start-from)%((to-from)/3) != 0 {
			return false
		}
		found = true
	}
	return found
}

// writeUneven writes spans of which some do not lie on power-of-two divisions:
// tuplets in the frames that need one, plain values in between.
func writeUneven(p Pulse, spans []Span) []Written {
	var written []Written
	var plain []Span
	frames := widen(p, p.frames(spans), spans)
	for i := 1; i < len(frames); i++ {
		inside := clip(spans, frames[i-1], frames[i])
		if !uneven(inside) {
			plain = join(plain, inside)
			continue
		}
		written = append(written, writePlain(p, plain)...)
		plain = nil
		written = append(written, writeTuplets(p, frames[i-1], frames[i], inside)...)
	}
	return append(written, writePlain(p, plain)...)
}

// writeTuplets writes the spans between two points that are not on power-of-two
// divisions. If a note begins in the middle, or a rest crosses it, the halves are
// written separately, so that a tuplet is as short as possible.
func writeTuplets(p Pulse, from, to Beat, spans []Span) []Written {
	if !uneven(spans) {
		return writePlain(p, spans)
	}
	unit := unitOf(from, to, spans)
	if middle := (from + to) / 2; (to-from)%(2*unit) == 0 && partsAt(spans, middle) {
		return append(writeTuplets(p, from, middle, clip(spans, from, middle)), writeTuplets(p, middle, to, clip(spans, middle, to))...)
	}
	return writeTuplet(from, to, unit, spans)
}

// unitOf returns the longest unit that a stretch, and every beginning and end in it,
// is a multiple of.
func unitOf(from, to Beat, spans []Span) Beat {
	unit := to - from
	for _, s := range spans {
		unit = GCD(unit, GCD(s.Start-from, s.End-from))
	}
	return unit
}

// partsAt reports whether the spans can be split at t without splitting a note.
func partsAt(spans []Span, t Beat) bool {
	return !slices.ContainsFunc(spans, func(s Span) bool { return s.Start < t && s.End > t && s.Note != Silence })
}

// writeTuplet writes one tuplet: the units of the stretch against the next
// smaller power of two, in lowest terms (3:2, 5:4, 15:8).
func writeTuplet(from, to, unit Beat, spans []Span) []Written {
	actual := int((to - from) / unit)
	value, _ := NoteValueOf(to - from)
	normal := 1
	for 2*normal < actual && value.Halvings < finest {
		normal *= 2
		value.Halvings++
	}
	tuplet := &Tuplet{spans[0].Start, spans[len(spans)-1].End, actual, normal}
	for tuplet.Actual%2 == 0 && tuplet.Normal%2 == 0 {
		tuplet.Actual, tuplet.Normal = tuplet.Actual/2, tuplet.Normal/2
	}
	var written []Written
	for _, s := range spans {
		for _, piece := range unitPieces(int((s.End - s.Start) / unit)) {
			end := s.Start + Beat(piece)*unit
			written = append(written, Written{Span: Span{s.Note, s.Start, end}, Value: value.times(piece), Tuplet: tuplet})
			s.Start = end
		}
	}
	return written
}
