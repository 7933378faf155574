package notefile

import (
	"io"
	"math/bits"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// WriteMIDI writes an exercise as a Standard MIDI File of format 1 with 960
// ticks to the quarter note and three tracks: tempo, metre and chord markers;
// the line, with note names as lyrics and scale names as cue points; and the
// voicings of the chords, struck anew in every bar.
//
// Notes lie where they sound, so that a swung line swings; a text event
// ("swing 2:1") says so, and [ReadMIDI] undoes it. Hammered, pulled and slid notes are softer. The file
// begins with the bar of the pickup.
func WriteMIDI(w io.Writer, ex *exercise.Exercise) error {
	bars, err := barsOf(ex)
	if err != nil {
		return err
	}
	if err := checkTempo(ex.Tempo); err != nil {
		return err
	}
	if err := checkKeys(ex); err != nil {
		return err
	}
	s := newSequence(ex, bars)
	tracks := []*track{s.conductor(), s.line()}
	if s.voiced() {
		tracks = append(tracks, s.chords())
	}
	file := appendHeader(nil, len(tracks))
	for _, t := range tracks {
		file = t.appendTo(file, s.tick(bars[len(bars)-1].End))
	}
	_, err = w.Write(file)
	return err
}

// Velocities: a picked note, one set going by the fretting hand, a chord
// underneath.
const (
	pickedVelocity = 96
	legatoVelocity = 72
	chordVelocity  = 56
)

// checkKeys refuses pitches that MIDI has no key for.
func checkKeys(ex *exercise.Exercise) error {
	for _, n := range ex.Notes {
		if key := n.Pitch.MIDI(); key < 0 || key > 127 {
			return &pitch.InputError{What: "pitch", Value: n.Pitch.String(), Want: "C-1 to G9, the keys of MIDI"}
		}
	}
	for _, c := range ex.Chords {
		for _, key := range c.Voicing {
			if key < 0 || key > 127 {
				return &pitch.InputError{What: "voicing of " + c.Symbol, Value: strconv.Itoa(key), Want: "MIDI keys 0 to 127"}
			}
		}
	}
	return nil
}

// The names of the tracks after the first, which bears the title.
const (
	lineTrack  = "Line"
	chordTrack = "Chords"
)

// A sequence places an exercise in ticks.
type sequence struct {
	ex       *exercise.Exercise
	bars     []line.Bar
	lead     line.Beat // from the beginning of the file to the first bar line
	pickup   line.Meter
	sounding func(line.Beat) line.Beat
}

func newSequence(ex *exercise.Exercise, bars []line.Bar) *sequence {
	s := &sequence{ex: ex, bars: bars, sounding: ex.Rhythm.Sounding}
	if bars[0].Number < 1 {
		s.pickup = pickupMeter(-bars[0].Start, ex.Rhythm.Meter)
		s.lead = s.pickup.Bar()
	}
	return s
}

// pickupMeter returns the shortest bar that holds a pickup: in the metre's
// own unit, or in a finer one if that makes it exact.
func pickupMeter(pickup line.Beat, m line.Meter) line.Meter {
	for unit := m.Unit; unit <= 32; unit *= 2 {
		if beat := (line.Meter{Beats: 1, Unit: unit}).Beat(); pickup%beat == 0 {
			return line.Meter{Beats: int(pickup / beat), Unit: unit}
		}
	}
	return line.Meter{Beats: int((pickup + m.Beat() - 1) / m.Beat()), Unit: m.Unit}
}

// tick returns the tick of a beat.
func (s *sequence) tick(b line.Beat) int { return int(b + s.lead) }

// conductor returns the first track.
func (s *sequence) conductor() *track {
	t := &track{}
	t.name(0, metaTrackName, titleOf(s.ex))
	if s.ex.Sentence != "" {
		t.name(0, metaText, s.ex.Sentence)
	}
	if s.swings() {
		t.name(0, metaText, s.ex.Rhythm.Swing.String())
	}
	t.meta(0, metaTempo, tempoBytes(s.ex.Tempo)...)
	if s.lead > 0 {
		t.meta(0, metaTimeSignature, timeSignature(s.pickup)...)
	}
	next := 0
	for ; next < len(s.ex.Chords) && s.ex.Chords[next].Start < 0; next++ {
		t.name(max(0, s.tick(s.ex.Chords[next].Start)), metaMarker, s.ex.Chords[next].Symbol)
	}
	t.meta(s.tick(0), metaTimeSignature, timeSignature(s.ex.Rhythm.Meter)...)
	for ; next < len(s.ex.Chords); next++ {
		t.name(s.tick(s.ex.Chords[next].Start), metaMarker, s.ex.Chords[next].Symbol)
	}
	return t
}

// swings reports whether a note of the line sounds elsewhere than written. A
// line in triplets does not, whatever the feel under it.
func (s *sequence) swings() bool {
	for _, n := range s.ex.Notes {
		if s.sounding(n.Start) != n.Start || s.sounding(n.End()) != n.End() {
			return true
		}
	}
	return false
}

// timeSignature returns the content of a time signature event: the metre, the
// MIDI clocks (24 to the quarter) of a beat as it is felt, and the 32nds to a
// quarter.
func timeSignature(m line.Meter) []byte {
	_, beat := line.PulseOf(m).Span(0)
	clocks := 24 * int(beat) / int(quarter)
	return []byte{byte(m.Beats), byte(bits.Len(uint(m.Unit)) - 1), byte(clocks), 8}
}

// line returns the track of the line.
func (s *sequence) line() *track {
	t := &track{}
	t.name(0, metaTrackName, lineTrack)
	t.event(0, programChange|lineChannel, byte(programOf(s.ex.Instrument)))
	runs := runsOf(s.ex.Notes)
	for i, n := range s.ex.Notes {
		start, end := s.tick(s.sounding(n.Start)), s.tick(s.sounding(n.End()))
		if len(runs) > 0 && runs[0].First == i {
			t.name(start, metaCue, scaleNameOf(s.ex, runs[0]))
			runs = runs[1:]
		}
		velocity := byte(pickedVelocity)
		if legato(n.Stroke) {
			velocity = legatoVelocity
		}
		key := byte(n.Pitch.MIDI())
		t.name(start, metaLyric, s.ex.Naming.Plain(n.Pitch.Name))
		t.event(start, noteOn|lineChannel, key, velocity)
		t.event(end, noteOff|lineChannel, key, 0)
	}
	return t
}

// voiced reports whether any chord has a voicing.
func (s *sequence) voiced() bool {
	for _, c := range s.ex.Chords {
		if len(c.Voicing) > 0 {
			return true
		}
	}
	return false
}

// chords returns the track of the voicings. A chord is struck where it begins
// and at every bar line that it lasts over.
func (s *sequence) chords() *track {
	t := &track{}
	t.name(0, metaTrackName, chordTrack)
	t.event(0, programChange|chordChannel, electricKeys)
	for _, c := range s.ex.Chords {
		for _, b := range s.bars {
			from, to := max(c.Start, b.Start), min(c.End, b.End)
			if from >= to {
				continue
			}
			for _, key := range c.Voicing {
				t.event(s.tick(from), noteOn|chordChannel, byte(key), chordVelocity)
			}
			for _, key := range c.Voicing {
				t.event(s.tick(to), noteOff|chordChannel, byte(key), 0)
			}
		}
	}
	return t
}
