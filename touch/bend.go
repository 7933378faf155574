package touch

import (
	"slices"
	"strings"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A Scale is a scale that notes of a line come from.
type Scale struct {
	pitch.Scale
	Home bool // not superimposed
}

// A Line is what the rules of a style are about.
type Line struct {
	Notes      []line.Note
	Scales     []Scale // by the Scale of a note
	Meter      line.Meter
	Instrument neck.Instrument
	Window     neck.Window // the frets under the hand
}

// Where a string can be bent (common practice): nearer the nut it is too stiff for
// more than a quarter tone.
const bendFromFret = 3

// A bendable is how far the strings of an instrument can be bent: string 1 to
// wholeTo by a tone, those to halfTo by a semitone, and the rest by a quarter tone.
type bendable struct {
	instrument      string // a part of the name
	wholeTo, halfTo int
}

// bendables holds what can be bent (common practice): a guitar's plain strings by a
// tone; a bass's thin ones by a semitone; nylon strings and double courses hardly.
var bendables = []bendable{
	{"bass", 0, 2},
	{"ukulele", 0, 2},
	{"mandolin", 0, 0},
	{"", 3, 4},
}

// CanBend reports whether a string can be bent at a spot.
func CanBend(in neck.Instrument, at neck.Spot, b Bend) bool {
	i := slices.IndexFunc(bendables, func(b bendable) bool { return strings.Contains(in.Name, b.instrument) })
	switch can := bendables[i]; b {
	case Whole:
		return at.String <= can.wholeTo && at.Fret >= bendFromFret
	case Half:
		return at.String <= can.halfTo && at.Fret >= bendFromFret
	}
	return at.Fret > 0
}

// Spots returns where a note of the line can be stopped to be bent: where the string
// bends, and the hand has a finger behind the one that pushes for a semitone, and
// two for a tone.
func (l *Line) Spots(key int, b Bend) []neck.Spot {
	spots := l.Instrument.SpotsIn(key-b.Below(), l.Window)
	return slices.DeleteFunc(spots, func(s neck.Spot) bool {
		return !CanBend(l.Instrument, s, b) || s.Fret < l.Window.Low+b.Below()
	})
}

// shortestBent is the shortest note that is bent: an eighth.
const shortestBent = line.Quarter / 2

// Bend places the style's bends and returns a touch for each note, or nothing if
// there are none. At most one note of a bar is bent, the first that can be:
//
//   - a note on a beat whose scale has the note a semitone or a tone below it, a
//     second by name, if that can be stopped under the hand where the string bends.
//     If the next note is the one it was bent from, the bend is released;
//   - a minor third of a home scale, by a quarter tone.
//
// No note shorter than an eighth is bent, nor one that repeats the note before.
func (s Style) Bend(l Line) []Touch {
	if s&(Bends|QuarterBends) == 0 {
		return nil
	}
	touches := make([]Touch, len(l.Notes))
	bar, bent := l.Meter.Bar(), line.Beat(-1<<40)
	for i := range l.Notes {
		n := &l.Notes[i]
		if line.FloorDiv(n.Start, bar) == line.FloorDiv(bent, bar) {
			continue
		}
		if touches[i] = s.bendOf(&l, i); touches[i].Bend != 0 {
			bent = n.Start
		}
	}
	return touches
}

// bendOf returns the bend that suits a note.
func (s Style) bendOf(l *Line, i int) Touch {
	n := &l.Notes[i]
	key := n.Pitch.MIDI()
	repeats := i > 0 && l.Notes[i-1].Pitch.MIDI() == key
	if n.Scale < 0 || n.Scale >= len(l.Scales) || n.Duration < shortestBent || repeats {
		return Touch{}
	}
	scale := l.Scales[n.Scale]
	if s&Bends != 0 && n.Start%l.Meter.Beat() == 0 {
		for _, b := range []Bend{Whole, Half} {
			if secondBelow(scale.Scale, n.Pitch.Name, b.Below()) && len(l.Spots(key, b)) > 0 {
				return Touch{Bend: b, Release: l.returns(i, key-b.Below())}
			}
		}
	}
	if s&QuarterBends != 0 && scale.Home && isMinorThird(scale.Scale, n.Pitch.Name) && len(l.Spots(key, Quarter)) > 0 {
		return Touch{Bend: Quarter}
	}
	return Touch{}
}

// returns reports whether the next note follows at once and has the key.
func (l *Line) returns(i, key int) bool {
	if i+1 == len(l.Notes) {
		return false
	}
	next := &l.Notes[i+1]
	return next.Start == l.Notes[i].End() && next.Pitch.MIDI() == key
}

// secondBelow reports whether the scale has the note some semitones below a name,
// with the letter before it.
func secondBelow(scale pitch.Scale, name pitch.Name, semitones int) bool {
	below, found := scale.Named(((name.Class()-semitones)%12 + 12) % 12)
	return found && (int(below.Letter)+1)%7 == int(name.Letter)
}

// isMinorThird reports whether a name is the minor third of the scale.
func isMinorThird(scale pitch.Scale, name pitch.Name) bool {
	return name == (pitch.Degree{Number: 3, Alter: -1}).Above(scale.Root) && slices.Contains(scale.Notes, name)
}
