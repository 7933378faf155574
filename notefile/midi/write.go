package midi

import (
	"io"
	"math/bits"
	"slices"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/sheet"
	"heddle/pitch"
)

// Write writes an exercise as a Standard MIDI File of format 1 with 960 ticks
// to the quarter note and three tracks: tempo, metre and chord markers; the
// line, with note names as lyrics and scale names as cue points; and the chord
// voicings, struck again in every bar. Each part of a band has a track after them.
//
// Notes are where they sound, so that a swung line swings; a text event ("swing
// 2:1") says so, and [Read] undoes it. The first note of a group is louder,
// hammered, pulled and slid notes are softer. The file begins with the bar of the
// pickup, and a marker says where the last bar ends.
//
// Bends, slides and vibrato are pitch bend, over a range of twelve semitones that
// the file sets. The key is the note that is written: a note bent by a tone begins
// two semitones below its key and rises to it. A text event before each note that is
// not plain holds its touch in words ("touch: bend 2, vibrato"), for [Read].
func Write(w io.Writer, ex *exercise.Exercise, band ...Part) error {
	bars, err := sheet.Bars(ex)
	if err != nil {
		return err
	}
	if err := checkKeys(ex); err != nil {
		return err
	}
	s := newSequence(ex, bars)
	tracks := []*track{s.conductor(), s.line()}
	if slices.ContainsFunc(ex.Chords, func(c exercise.Chord) bool { return len(c.Voicing) > 0 }) {
		tracks = append(tracks, s.chords())
	}
	for _, p := range band {
		tracks = append(tracks, s.part(p))
	}
	file := appendHeader(nil, len(tracks))
	for _, t := range tracks {
		file = t.appendTo(file, s.tick(bars[len(bars)-1].End))
	}
	_, err = w.Write(file)
	return err
}

// Velocities of a picked note, of the first of a group, of a note with an accent, of a
// ghost note, of a legato note, and of the chord underneath.
const (
	pickedVelocity  = 88
	openingVelocity = 104
	accentVelocity  = 120
	ghostVelocity   = 36
	legatoVelocity  = 72
	chordVelocity   = 56
)

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

// The channel of the chords, counted from 0, and their General MIDI program.
const (
	chordChannel = 1
	electricKeys = 4
)

// Names of the tracks after the first, which has the title.
const (
	lineTrack  = "Line"
	chordTrack = "Chords"
)

// A sequence is an exercise in ticks.
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

// pickupMeter returns the shortest bar that holds a pickup, in the metre's own
// unit or in a finer one that is exact.
func pickupMeter(pickup line.Beat, m line.Meter) line.Meter {
	for unit := m.Unit; unit <= 32; unit *= 2 {
		if beat := (line.Meter{Beats: 1, Unit: unit}).Beat(); pickup%beat == 0 {
			return line.Meter{Beats: int(pickup / beat), Unit: unit}
		}
	}
	return line.Meter{Beats: int((pickup + m.Beat() - 1) / m.Beat()), Unit: m.Unit}
}

func (s *sequence) tick(b line.Beat) int { return int(b + s.lead) }

func (s *sequence) conductor() *track {
	t := &track{}
	t.text(0, metaTrackName, s.ex.Title())
	if s.ex.Sentence != "" {
		t.text(0, metaText, s.ex.Sentence)
	}
	if s.swings() {
		t.text(0, metaText, s.ex.Rhythm.Swing.String())
	}
	t.meta(0, metaTempo, tempoBytes(s.ex.Tempo)...)
	if s.lead > 0 {
		t.meta(0, metaTimeSignature, timeSignature(s.pickup)...)
	}
	next := 0
	for ; next < len(s.ex.Chords) && s.ex.Chords[next].Start < 0; next++ {
		t.text(max(0, s.tick(s.ex.Chords[next].Start)), metaMarker, s.ex.Chords[next].Symbol)
	}
	t.meta(s.tick(0), metaTimeSignature, timeSignature(s.ex.Rhythm.Meter)...)
	for ; next < len(s.ex.Chords); next++ {
		t.text(s.tick(s.ex.Chords[next].Start), metaMarker, s.ex.Chords[next].Symbol)
	}
	t.text(max(t.now, s.tick(s.bars[len(s.bars)-1].End)), metaMarker, loopEnd)
	return t
}

// loopEnd marks where a sequencer that loops the line goes back to its beginning.
const loopEnd = "end of loop"

// swings reports whether any note sounds at another time than written. No note
// of a line in triplets does, whatever the feel.
func (s *sequence) swings() bool {
	return slices.ContainsFunc(s.ex.Notes, func(n exercise.Note) bool { return s.sounding(n.Start) != n.Start || s.sounding(n.End()) != n.End() })
}

// timeSignature returns the content of a time signature event: the metre, the
// MIDI clocks (24 per quarter note) of a felt beat, and the 32nds per quarter.
func timeSignature(m line.Meter) []byte {
	_, beat := line.PulseOf(m).Span(0)
	clocks := 24 * int(beat) / int(line.Quarter)
	return []byte{byte(m.Beats), byte(bits.Len(uint(m.Unit)) - 1), byte(clocks), 8}
}

// chords returns the track of the voicings. A chord is struck where it begins
// and at every bar line after that until its end.
func (s *sequence) chords() *track {
	t := &track{}
	t.text(0, metaTrackName, chordTrack)
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
