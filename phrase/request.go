package phrase

import (
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A Span is the time of one chord, up to the next span, and where its scales lie.
type Span struct {
	Start   line.Beat
	Chord   pitch.Chord
	Sources []line.Source // home first
	Base    int           // the index of home over all sections
}

// A Cell is a few notes to use as a dip. Their starts count from the beginning of a bar.
type Cell []line.Note

// A Request describes a phrase.
type Request struct {
	Bars       int    // with the one that it lands in; at least two
	Spans      []Span // in time, from 0
	Land       line.Beat
	Targets    []pitch.Name // any of these
	Rhythm     line.Rhythm
	Busy       Busy
	Dips       int
	Direction  line.Direction // of the dips; down-up and up-down allow both
	Follow     line.Follow
	Cells      []Cell // the dips in turn; none for groups of the superimposed scales
	Instrument neck.Instrument
}

// A Phrase is one phrase.
type Phrase struct {
	Notes []line.Note
	Cost  float64
}

// Bounds of a phrase.
const (
	FewestBars = 2
	MostBars   = 12
	MostDips   = 4
)

// A tone is a note that may be played inside.
type tone struct {
	key   int
	name  pitch.Name
	scale int // the home source's index over all sections, or line.Chromatic
	role  pitch.Function
	guide bool // a third or seventh of the chord
}

// SpanAt returns the index of the span at a time.
func (r Request) SpanAt(t line.Beat) int {
	i := len(r.Spans) - 1
	for i > 0 && r.Spans[i].Start > t {
		i--
	}
	return i
}

// inside returns the tones of a span that lie under the hand, lowest first: those of the
// home placement, and tones of the chord in its window.
func (r Request) inside(b Span) []tone {
	home := b.Sources[0]
	var list []tone
	window := home.Placement.Window
	for key := range 128 {
		t := tone{key: key, scale: line.Chromatic}
		if place, ok := home.Placement.At(key); ok {
			t.name, t.scale = place.Pitch.Name, b.Base
		} else if name, ok := chordTone(b.Chord, key%12); ok && len(r.Instrument.SpotsIn(key, window)) > 0 {
			t.name = name
			if own, ok := home.Scale.Named(key % 12); ok {
				t.name, t.scale = own, b.Base
			}
		} else {
			continue
		}
		t.role = b.Chord.Function(t.name, home.Scale)
		degree := b.Chord.Degree(t.name, home.Scale).Number
		t.guide = t.role == pitch.ChordTone && (degree == 3 || degree == 7)
		list = append(list, t)
	}
	return list
}

// chordTone returns the chord's name for a pitch class that is one of its tones.
func chordTone(c pitch.Chord, class int) (pitch.Name, bool) {
	for _, d := range c.Degrees {
		if name := d.Above(c.Root); d.Number <= 7 && name.Class() == class {
			return name, true
		}
	}
	return pitch.Name{}, false
}
