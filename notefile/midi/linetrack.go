package midi

import (
	"strconv"

	"heddle/exercise"
	"heddle/notefile/sheet"
	"heddle/touch"
)

// line returns the track with the line.
func (s *sequence) line() *track {
	t := &track{}
	t.text(0, metaTrackName, lineTrack)
	t.event(0, programChange|sheet.LineChannel, byte(sheet.Program(s.ex.Instrument)))
	var w *wheel
	if s.bent() {
		w = newWheel(t)
	}
	runs := sheet.Runs(s.ex.Notes)
	for i, n := range s.ex.Notes {
		start, end := s.tick(s.sounding(n.Start)), s.tick(s.sounding(n.End()))
		opens := len(runs) > 0 && runs[0].First == i
		if opens {
			t.text(start, metaCue, sheet.ScaleName(s.ex, runs[0]))
			runs = runs[1:]
		}
		words := n.Touch.String()
		if n.Touch.Staccato {
			words += shortened + strconv.Itoa(end-start)
			end = start + max(1, (end-start)/2)
		}
		if words != "" {
			t.text(start, metaText, touchText+words)
		}
		t.text(start, metaLyric, s.ex.Naming.Plain(n.Pitch.Name))
		s.note(t, w, i, start, end, velocityOf(n, opens))
	}
	return t
}

// touchText comes before a touch in words, in a text event, and shortened after it,
// before the written length of a staccato note in ticks.
const (
	touchText = "touch: "
	shortened = "; written "
)

// note writes one note of the line, with the wheel that its pitch needs.
func (s *sequence) note(t *track, w *wheel, i, start, end int, velocity byte) {
	n := &s.ex.Notes[i]
	key := byte(n.Pitch.MIDI())
	var path []touch.Move
	if w != nil {
		path = n.Touch.Path(float64(end-start)/s.ticksPerSecond(), s.ex.SlidesOn(i))
		w.turn(start, touch.At(path, 0)-float64(n.Touch.Bend.Below()))
	}
	t.event(start, noteOn|channelOfLine, key, velocity)
	if w != nil {
		w.follow(path, start, end, n.Touch.Bend.Below(), s.ticksPerSecond())
	}
	t.event(end, noteOff|channelOfLine, key, 0)
}

// velocityOf returns how hard a note is played; the first of a group is stressed.
func velocityOf(n exercise.Note, opens bool) byte {
	switch {
	case n.Touch.Ghost:
		return ghostVelocity
	case n.Touch.Accent:
		return accentVelocity
	case sheet.Legato(n.Stroke):
		return legatoVelocity
	case opens:
		return openingVelocity
	}
	return pickedVelocity
}
