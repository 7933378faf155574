package line

import "slices"

// Silence is the Note of a span in which nothing sounds.
const Silence = -1

// A Span is a stretch of time: a note of the line, or a rest.
type Span struct {
	Note       int // index of the note, or Silence
	Start, End Beat
}

// A Written is one sign on the page: a note of the line, a tied piece of one, or a
// rest.
type Written struct {
	Span
	Value          NoteValue
	Tuplet         *Tuplet // nil outside a tuplet; the signs of one tuplet share it
	TieFrom, TieTo bool    // tied to the sign before, to the one after
	WholeBar       bool    // a rest for the whole bar, drawn as a whole rest
	Beat           int     // the beat of the bar in which it begins, from 0
	Beams          []Beam  // the beam at each level, the outermost first; none for a flag
}

// Write writes consecutive notes into consecutive bars, as a player reads them
// (common practice; Gould 2011, "Grouping of note-values"): beats stay visible, the
// middle of the bar is hidden only by whole beats, and rests show every beat. What
// does not divide by two is a tuplet, as short as possible. Every time is kept
// exactly.
func Write(m Meter, bars []Bar, notes []Span) [][]Written {
	if len(bars) == 0 {
		return nil
	}
	spans := withRests(notes, bars[0].Start, bars[len(bars)-1].End)
	p := PulseOf(m)
	written := make([][]Written, len(bars))
	for i, b := range bars {
		for len(spans) > 0 && spans[0].End <= b.Start {
			spans = spans[1:]
		}
		reach := 0
		for reach < len(spans) && spans[reach].Start < b.End {
			reach++
		}
		written[i] = writeBar(p.from(b.Downbeat), b, spans[:reach])
	}
	return written
}

// withRests fills the gaps between notes, and before and after them.
func withRests(notes []Span, from, to Beat) []Span {
	spans := make([]Span, 0, 2*len(notes)+1)
	for _, n := range notes {
		if n.Start > from {
			spans = append(spans, Span{Silence, from, n.Start})
		}
		spans = append(spans, n)
		from = n.End
	}
	if from < to {
		spans = append(spans, Span{Silence, from, to})
	}
	return spans
}

// writeBar writes the spans that fill a bar. They may reach beyond it, with ties
// over the bar lines.
func writeBar(p Pulse, b Bar, all []Span) []Written {
	spans := clip(all, b.Start, b.End)
	if len(spans) == 1 && spans[0].Note == Silence {
		return []Written{{Span: spans[0], WholeBar: true}}
	}
	var written []Written
	if uneven(spans) {
		p = tupletPulse(p, b, spans)
		written = writeUneven(p, spans)
	} else {
		written = writePlain(p, spans)
	}
	for i := range written {
		written[i].Beat = p.BeatAt(written[i].Start)
	}
	tie(written, all)
	beam(p, written)
	return written
}

// writePlain writes spans that lie on power-of-two divisions.
func writePlain(p Pulse, spans []Span) []Written {
	written := make([]Written, 0, 2*len(spans))
	for _, s := range spans {
		written = appendPlain(written, p, s)
	}
	return written
}

// appendPlain writes a span as one value, or splits it at its strongest position.
func appendPlain(written []Written, p Pulse, s Span) []Written {
	value, single := NoteValueOf(s.End - s.Start)
	at, strength, inside := p.strongest(s.Start, s.End)
	if !inside || single && readable(p, s, value, at, strength) {
		return append(written, Written{Span: s, Value: value})
	}
	return appendPlain(appendPlain(written, p, Span{s.Note, s.Start, at}), p, Span{s.Note, at, s.End})
}

// readable reports whether a single value shows the metre well enough: it may hide a
// position no stronger than one of its own ends, but never where one part of 5/4 or
// 7/8 meets the next, since their places are not obvious. For notes, the usual exceptions are
// allowed: short–long–short across a beat, and across the middle of the bar if the
// short ones are whole beats; and a dotted half from the second beat to the bar
// line. A rest hides only what is weaker than its beginning.
func readable(p Pulse, s Span, value NoteValue, middle Beat, hidden int) bool {
	if p.uneven && hidden == partStrength {
		return false
	}
	from, to := p.strength(s.Start), p.strength(s.End)
	length := s.End - s.Start
	if s.Note == Silence {
		start, end := p.Span(p.BeatAt(s.Start))
		return (value.Dots == 0 || length == end-start) && hidden < from
	}
	if hidden <= from || hidden <= to && hidden < partStrength {
		return true
	}
	if to == barStrength && from >= beatStrength && length <= 3*Quarter {
		return true
	}
	symmetric := middle-s.Start == s.End-middle
	return symmetric && value.Dots == 0 && (hidden < partStrength || from >= beatStrength)
}

// uneven reports whether a span begins or ends off the power-of-two divisions
// of a beat.
func uneven(spans []Span) bool {
	return slices.ContainsFunc(spans, func(s Span) bool { return s.Start%grain != 0 || s.End%grain != 0 })
}

// clip returns the parts of the spans between two points.
func clip(spans []Span, from, to Beat) []Span {
	var inside []Span
	for _, s := range spans {
		s.Start, s.End = max(s.Start, from), min(s.End, to)
		if s.Start < s.End {
			inside = append(inside, s)
		}
	}
	return inside
}

// join appends spans and rejoins a note or rest that was split.
func join(spans, more []Span) []Span {
	for _, s := range more {
		if last := len(spans) - 1; last >= 0 && spans[last].Note == s.Note && spans[last].End == s.Start {
			spans[last].End = s.End
			continue
		}
		spans = append(spans, s)
	}
	return spans
}

// tie marks the pieces of one note as tied, also over bar lines: a piece that does
// not begin where its note begins is tied from the one before. Spans and signs are
// in the same order.
func tie(written []Written, spans []Span) {
	for i := range written {
		w := &written[i]
		if w.Note == Silence {
			continue
		}
		for spans[0].Note != w.Note {
			spans = spans[1:]
		}
		w.TieFrom, w.TieTo = w.Start > spans[0].Start, w.End < spans[0].End
	}
}
