package midi

import (
	"math"

	"heddle/line"
	"heddle/notefile/sheet"
	"heddle/touch"
)

// bendRange is how far the pitch wheel goes, in semitones: as far as any bend, slide
// or vibrato, and the usual range of MIDI guitars.
const bendRange = 12

// Controllers that set the bend range: registered parameter 0 is the pitch bend
// sensitivity, and 127, 127 is no parameter (MIDI 1.0, registered parameter
// numbers).
const (
	rpnHigh, rpnLow        = 101, 100
	dataHigh, dataLow      = 6, 38
	noParameter            = 127
	bendMiddle             = 0x2000
	bendStepS              = 0.01 // between events while the pitch moves
	leastBend              = 4    // steps of the wheel below which no event is worth it: 0.6 cents
	channelOfLine     byte = sheet.LineChannel
)

// A wheel is the pitch wheel of the line's channel.
type wheel struct {
	track *track
	value int
}

// newWheel sets the range of the wheel.
func newWheel(t *track) *wheel {
	for _, c := range [][2]byte{{rpnHigh, 0}, {rpnLow, 0}, {dataHigh, bendRange}, {dataLow, 0}, {rpnHigh, noParameter}, {rpnLow, noParameter}} {
		t.event(0, controlChange|channelOfLine, c[0], c[1])
	}
	return &wheel{t, bendMiddle}
}

// turn moves the wheel to so many semitones from the key.
func (w *wheel) turn(tick int, semitones float64) {
	value := bendMiddle + int(math.Round(semitones/bendRange*bendMiddle))
	value = min(max(value, 0), 2*bendMiddle-1)
	off := max(value-w.value, w.value-value)
	if off == 0 || off < leastBend && value != bendMiddle {
		return
	}
	w.value = value
	w.track.event(tick, pitchBend|channelOfLine, byte(value&0x7F), byte(value>>7))
}

// follow moves the wheel along the path of a note that begins at a tick, up to
// another. Below is how far under its key the note is stopped.
func (w *wheel) follow(path []touch.Move, from, until, below int, perSecond float64) {
	for _, m := range path {
		steps := int(math.Ceil(m.OverS / bendStepS))
		for k := 1; k <= steps; k++ {
			s := m.AtS + m.OverS*float64(k)/float64(steps)
			tick := from + int(math.Round(s*perSecond))
			if tick >= until {
				return
			}
			if tick > from {
				w.turn(tick, touch.At(path, s)-float64(below))
			}
		}
	}
}

// bent reports whether the pitch of any note moves.
func (s *sequence) bent() bool {
	for i, n := range s.ex.Notes {
		if len(n.Touch.Path(1, s.ex.SlidesOn(i))) > 0 {
			return true
		}
	}
	return false
}

// ticksPerSecond returns how many ticks pass in a second.
func (s *sequence) ticksPerSecond() float64 { return s.ex.Tempo / 60 * float64(line.Quarter) }
