package score

import (
	"slices"

	"heddle/exercise"
	"heddle/line"
)

// An event is one written note or rest.
type event struct {
	note       int // index in the exercise's notes, or rest
	start, end line.Beat
	value      noteValue
	tuplet     *tuplet // nil outside one
	tied       bool    // goes on from the event before
	ties       bool    // goes on in the next event
	wholeBar   bool    // a rest that stands for an empty bar of any length
	beat       int     // which beat of its bar
}

// rest is the note of an event that is silent.
const rest = -1

// A tuplet is a part of a bar divided in another number than the metre does.
type tuplet struct {
	start, end line.Beat
	number     int // the digit: 3, 5
	normal     int // how many of the same value fill the time outside it
}

// A measure is one bar as it is written.
type measure struct {
	number     int // as printed; the pickup is 0
	start, end line.Beat
	events     []event
}

// measuresOf writes the exercise's notes into bars.
func measuresOf(ex *exercise.Exercise, p pulse) []measure {
	spans := spansOf(ex.Notes, p)
	end := ex.Length
	start := -max(0, ex.Rhythm.Pickup)
	if len(spans) > 0 {
		end = max(end, spans[len(spans)-1].end)
		start = min(start, spans[0].start)
	}
	if end <= 0 {
		end = p.bar
	}
	var measures []measure
	first := floorDiv(start, p.bar)
	for bar := first; bar*p.bar < end; bar++ {
		m := measure{number: int(bar) + 1, start: bar * p.bar, end: (bar + 1) * p.bar}
		if bar == first {
			m.start = max(m.start, min(start, 0))
			if start >= 0 {
				m.start = bar * p.bar
			}
		}
		m.events = write(m, pieces(m, spans), p)
		measures = append(measures, m)
	}
	return measures
}

// pieces returns what sounds and what is silent in a bar, from its start to
// its end.
func pieces(m measure, spans []span) []event {
	var out []event
	at := m.start
	from, _ := slices.BinarySearchFunc(spans, m.start, func(s span, t line.Beat) int { return int(s.end - t - 1) })
	for _, s := range spans[from:] {
		if s.start >= m.end {
			break
		}
		if s.start > at {
			out = append(out, event{note: rest, start: at, end: s.start})
		}
		out = append(out, event{
			note: s.note, start: max(s.start, m.start), end: min(s.end, m.end),
			tied: s.start < m.start, ties: s.end > m.end,
		})
		at = min(s.end, m.end)
	}
	if at < m.end {
		out = append(out, event{note: rest, start: at, end: m.end})
	}
	return out
}

// write turns the pieces of a bar into notes and rests that can be printed.
func write(m measure, parts []event, p pulse) []event {
	if len(parts) == 1 && parts[0].note == rest {
		e := parts[0]
		e.wholeBar = true
		return []event{e}
	}
	bar := floorDiv(m.start, p.bar) * p.bar
	tuplets := tupletsOf(m, parts, p)
	var out []event
	for _, part := range parts {
		for _, cut := range cutAtTuplets(part, tuplets) {
			out = append(out, spell(cut, bar, p)...)
		}
	}
	for i := range out {
		out[i].beat = p.beat(out[i].start - bar)
	}
	return out
}

// cutAtTuplets cuts a piece where a tuplet begins or ends.
func cutAtTuplets(part event, tuplets []*tuplet) []event {
	var out []event
	for _, t := range tuplets {
		if t.end <= part.start || t.start >= part.end {
			continue
		}
		if t.start > part.start {
			var before event
			before, part = divide(part, t.start)
			out = append(out, before)
		}
		part.tuplet = t
		if t.end >= part.end {
			return append(out, part)
		}
		var within event
		within, part = divide(part, t.end)
		part.tuplet = nil
		out = append(out, within)
	}
	return append(out, part)
}

// divide cuts an event in two, tied if it sounds.
func divide(e event, at line.Beat) (before, after event) {
	before, after = e, e
	before.end, after.start = at, at
	if e.note != rest {
		before.ties, after.tied = true, true
	}
	return before, after
}

// spell gives a piece its note value, or cuts it into tied ones.
func spell(e event, bar line.Beat, p pulse) []event {
	if e.tuplet != nil {
		return spellInTuplet(e)
	}
	value, single := valueOf(e.end - e.start)
	if single && readable(e, value, bar, p) {
		e.value = value
		return []event{e}
	}
	at := strongest(e, bar, p)
	if at >= e.end {
		e.value = noteValue{log: finest} // too short to be cut
		return []event{e}
	}
	before, after := divide(e, at)
	return append(spell(before, bar, p), spell(after, bar, p)...)
}

// readable reports whether a single value shows the metre well enough: it may
// hide a position no stronger than one of its own ends. Old habits are kept
// as well for notes: short–long–short across a beat, and across the middle of
// the bar when the short ones are whole beats; and a dotted half from the
// second beat to the bar line. A rest hides only what is weaker than where it
// begins.
func readable(e event, value noteValue, bar line.Beat, p pulse) bool {
	if e.end-e.start <= plainGrid {
		return true
	}
	from, to := p.strength(e.start-bar), p.strength(e.end-bar)
	hidden := p.strength(strongest(e, bar, p) - bar)
	if e.note == rest {
		simple := value.dots == 0 || p.ends[e.beat]-p.beats[e.beat] == value.length()
		return simple && hidden < from
	}
	if hidden <= from || hidden <= to && hidden < halfStrength {
		return true
	}
	if toBarLine := to == barStrength && from >= beatStrength; toBarLine && e.end-e.start <= 3*line.Quarter {
		return true
	}
	middle := strongest(e, bar, p)
	symmetric := middle-e.start == e.end-middle
	return symmetric && value.dots == 0 && (hidden < halfStrength || from >= beatStrength)
}

// strongest returns the strongest position of the bar inside a piece, the
// earliest of equals; the end of its first finest step where there is none.
func strongest(e event, bar line.Beat, p pulse) line.Beat {
	best, strength := e.start+plainGrid, -1
	for at := floorDiv(e.start, plainGrid)*plainGrid + plainGrid; at < e.end; at += plainGrid {
		if s := p.strength(at - bar); s > strength {
			best, strength = at, s
		}
	}
	return best
}

// spellInTuplet gives a piece of a tuplet its written value, cutting off the
// longest that fits until all is written.
func spellInTuplet(e event) []event {
	written := (e.end - e.start) * line.Beat(e.tuplet.number) / line.Beat(e.tuplet.normal)
	if value, single := valueOf(written); single {
		e.value = value
		return []event{e}
	}
	for log := longest; log <= finest; log++ {
		v := noteValue{log, 0}
		actual := v.length() * line.Beat(e.tuplet.normal) / line.Beat(e.tuplet.number)
		if actual > 0 && actual < e.end-e.start {
			before, after := divide(e, e.start+actual)
			before.value = v
			return append([]event{before}, spellInTuplet(after)...)
		}
	}
	e.value = noteValue{finest, 0}
	return []event{e}
}
