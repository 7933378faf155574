package notefile

import (
	"heddle/line"
)

// A span is a stretch of a bar: a note of the line, or a rest.
type span struct {
	Start, End line.Beat
	Note       int // index of the note, or rest
}

// rest is the Note of a span or symbol in which nothing sounds.
const rest = -1

// A symbol is one sign on the page: a whole note of the line, a piece of one
// tied to the next, or a rest.
type symbol struct {
	span
	value
	TieFrom, TieTo bool // tied to the symbol before, to the one after
	WholeBar       bool // a rest for the whole bar
	TupletOpens    bool
	TupletCloses   bool
	Beams          []string // MusicXML beam values, level 1 first
}

// writeBar turns the spans that fill a bar into symbols. Values stay inside
// beats or cover whole ones; a note that can't be drawn as one sign is cut
// and tied.
//
// The spans may reach beyond the bar; ties follow them over the bar lines.
func writeBar(b bar, all []span) []symbol {
	spans := clip(all, b.Start, b.End)
	if len(spans) == 1 && spans[0].Note == rest {
		v, ok := plainValue(b.End - b.Start)
		if !ok {
			v = value{Type: "whole"}
		}
		return []symbol{{span: spans[0], value: v, WholeBar: true}}
	}
	beats := pulse(b.Meter)
	at := edges(b.Downbeat, beats)
	frames := at
	if uneven(at, spans) {
		frames = tupletFrames(b, at, spans)
		if frames[1]-frames[0] == quarter {
			at = frames
		}
	}
	var symbols []symbol
	var plain []span
	for i := 1; i < len(frames); i++ {
		inside := clip(spans, frames[i-1], frames[i])
		if uneven(frames[i-1:i+1], inside) {
			symbols = append(symbols, writePlain(at, middle(beats), plain)...)
			plain = nil
			symbols = append(symbols, writeTuplets(frames[i-1], frames[i], inside)...)
			continue
		}
		plain = join(plain, inside)
	}
	symbols = append(symbols, writePlain(at, middle(beats), plain)...)
	tie(symbols, all)
	beam(symbols, at)
	return symbols
}

// uneven reports whether a span begins or ends off the power-of-two divisions
// of the beat it lies in.
func uneven(at []line.Beat, spans []span) bool {
	off := func(t line.Beat) bool {
		for i := len(at) - 1; i >= 0; i-- {
			if t >= at[i] {
				return (t-at[i])%grain != 0
			}
		}
		return (at[0]-t)%grain != 0
	}
	for _, s := range spans {
		if off(s.Start) || off(s.End) {
			return true
		}
	}
	return false
}

// tupletFrames returns the edges of the stretches in which tuplets are drawn.
// They are beats, where a beat divides in two. A beat of three is better cut
// in quarters, if no note then crosses from an uneven quarter to the next;
// else in its three parts.
func tupletFrames(b bar, at []line.Beat, spans []span) []line.Beat {
	if powerOfTwo(at[1]-at[0]) && powerOfTwo(at[len(at)-1]-at[len(at)-2]) {
		return at
	}
	full := at[len(at)-1] - at[0]
	if full%quarter == 0 {
		quarters := []line.Beat{at[0]}
		for t := at[0]; t < at[len(at)-1]; t += quarter {
			quarters = append(quarters, t+quarter)
		}
		if closed(quarters, spans) {
			return quarters
		}
	}
	unit := b.Meter.Beat()
	frames := []line.Beat{at[0]}
	for t := at[0]; t < at[len(at)-1]; t += unit {
		frames = append(frames, t+unit)
	}
	return frames
}

// powerOfTwo reports whether a length is a quarter note doubled or halved.
func powerOfTwo(d line.Beat) bool { return typeIndex(int(d), 1) >= 0 }

// closed reports whether no span crosses the edge of a frame that needs a
// tuplet.
func closed(frames []line.Beat, spans []span) bool {
	for i := 1; i < len(frames); i++ {
		inside := clip(spans, frames[i-1], frames[i])
		if !uneven(frames[i-1:i+1], inside) {
			continue
		}
		for _, s := range spans {
			for _, edge := range frames[i-1 : i+1] {
				if s.Start < edge && s.End > edge {
					return false
				}
			}
		}
	}
	return true
}

// clip returns what of the spans lies between two points.
func clip(spans []span, from, to line.Beat) []span {
	var inside []span
	for _, s := range spans {
		s.Start, s.End = max(s.Start, from), min(s.End, to)
		if s.Start < s.End {
			inside = append(inside, s)
		}
	}
	return inside
}

// join appends spans and heals a note or rest that was cut at the seam.
func join(spans, more []span) []span {
	for _, s := range more {
		if last := len(spans) - 1; last >= 0 && spans[last].Note == s.Note && spans[last].End == s.Start {
			spans[last].End = s.End
			continue
		}
		spans = append(spans, s)
	}
	return spans
}

// tie marks the pieces of one note as tied, also over the bar's ends: a piece
// that does not begin where its note begins is tied from the one before.
func tie(symbols []symbol, spans []span) {
	begins, ends := map[int]line.Beat{}, map[int]line.Beat{}
	for _, s := range spans {
		begins[s.Note], ends[s.Note] = s.Start, s.End
	}
	for i := range symbols {
		s := &symbols[i]
		if s.Note != rest {
			s.TieFrom = s.TieFrom || s.Start > begins[s.Note]
			s.TieTo = s.TieTo || s.End < ends[s.Note]
		}
	}
}
