package midi

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/pitch"
)

// drumChannel is the channel of percussion, counted from 0 (General MIDI 1).
const drumChannel = 9

// defaultTempo is the tempo of a file that gives none, by the standard.
const defaultTempo = 120

// Read reads a line from a Standard MIDI File of format 0 or 1; see [melody.Choose] for
// the part.
//
// Names are taken from lyrics if those name every note, as [Write] writes them.
// Otherwise keys are spelled by the file's key signature, or, without one, by
// the key that fits the notes best. Onsets off every usual division of the beat
// move to the nearest one. Whole bars of silence before the line are left out.
func Read(content []byte, part string) (melody.Import, error) {
	f, err := parseSMF(content)
	if err != nil {
		return melody.Import{}, fmt.Errorf("MIDI file: %w", err)
	}
	sortChanges(f)
	m := midiImport{file: f}
	if f.PerSec > 0 {
		m.setClock()
	}
	if err := m.run(part); err != nil {
		return melody.Import{}, fmt.Errorf("MIDI file: %w", err)
	}
	return m.Import, nil
}

func sortChanges(f *midiFile) {
	slices.SortStableFunc(f.Tempos, byTick[float64])
	slices.SortStableFunc(f.Meters, byTick[line.Meter])
	slices.SortStableFunc(f.Keys, byTick[int])
	slices.SortStableFunc(f.Markers, byTick[string])
}

func byTick[T any](a, b midiChange[T]) int { return cmp.Compare(a.Tick, b.Tick) }

// at returns the value at a tick: the last change not after it.
func at[T any](changes []midiChange[T], tick int) (T, bool) {
	var is T
	found := false
	for _, c := range changes {
		if c.Tick > tick {
			break
		}
		is, found = c.Is, true
	}
	return is, found
}

// A midiImport turns ticks into beats and keys into names.
type midiImport struct {
	melody.Import
	file  *midiFile
	clock []tempoChange // with SMPTE division only
	zero  line.Beat     // the first bar line, from the file's beginning
}

func (m *midiImport) run(part string) error {
	parts, named := m.parts()
	chosen, err := melody.Choose(parts, part)
	if err != nil {
		return err
	}
	if chosen < 0 {
		return errors.New("no notes, drums aside")
	}
	m.Take(parts, chosen)
	m.Grouped = named[chosen] && m.Notes[0].From != ""
	m.file.remarks(&m.Import)
	if err := m.bar(); err != nil {
		return err
	}
	m.unswing()
	if !named[chosen] {
		m.tidy()
	}
	m.Rhythm.Pickup = max(0, -m.Notes[0].Start)
	m.Title = m.file.Tracks[0].Name
	m.tempo()
	m.chords()
	if !named[chosen] {
		m.spell()
	}
	return nil
}

// parts collects the notes of each track, or, in a file of one track, of each
// channel. It also returns which parts have their names from lyrics.
func (m *midiImport) parts() (parts []melody.Part, named []bool) {
	for i, t := range m.file.Tracks {
		byChannel := map[int][]midiNote{}
		for _, n := range t.Notes {
			channel := n.Channel
			if channel == drumChannel || n.End <= n.Start {
				continue
			}
			if len(m.file.Tracks) > 1 {
				channel = 0
			}
			byChannel[channel] = append(byChannel[channel], n)
		}
		for channel := range 16 {
			notes := byChannel[channel]
			if len(notes) == 0 {
				continue
			}
			name := t.Name
			if name == "" {
				name = fmt.Sprintf("track %d", i+1)
			}
			if len(byChannel) > 1 {
				name = fmt.Sprintf("channel %d", channel+1)
			}
			p, ok := m.part(name, notes, &t)
			parts, named = append(parts, p), append(named, ok)
		}
	}
	return parts, named
}

// part turns one part's notes into beats, and names them by lyrics if those
// name every one. A named part is one of our own: its cues are its groups, and its
// texts the touches of its notes.
func (m *midiImport) part(name string, notes []midiNote, t *midiTrack) (p melody.Part, named bool) {
	p, named = melody.Part{Name: name, Notes: make([]exercise.GivenNote, 0, len(notes))}, true
	for _, n := range notes {
		start, end := m.beat(n.Start), m.beat(n.End)
		sounding := melody.Spell(n.Key, 0)
		if named {
			var name pitch.Name
			if name, named = melody.NameIn(t.Lyrics[n.Start], n.Key%12); named {
				sounding = pitch.Named(name, n.Key)
			}
		}
		p.Notes = append(p.Notes, exercise.GivenNote{Note: line.Note{Pitch: sounding, Scale: line.Chromatic,
			Start: start, Duration: max(1, end-start), Role: line.PatternRole}})
	}
	if named {
		m.own(p.Notes, notes, t)
	}
	return p, named
}

// beat returns the beat of a tick. With SMPTE division ticks are time, and the
// tempo gives the beats.
func (m *midiImport) beat(tick int) line.Beat {
	if m.file.Division > 0 {
		return line.Beat(math.Round(float64(tick) * float64(line.Quarter) / float64(m.file.Division)))
	}
	next, _ := slices.BinarySearchFunc(m.clock, tick, func(c tempoChange, tick int) int { return cmp.Compare(c.Tick, tick) })
	last := m.clock[max(0, next-1)]
	return line.Beat(math.Round(m.quarters(last, tick) * float64(line.Quarter)))
}

// A tempoChange is a tempo from a tick on, and the quarter notes before it.
type tempoChange struct {
	Tick            int
	Quarters, Tempo float64
}

func (m *midiImport) setClock() {
	m.clock = []tempoChange{{Tempo: defaultTempo}}
	for _, c := range m.file.Tempos {
		last := m.clock[len(m.clock)-1]
		m.clock = append(m.clock, tempoChange{c.Tick, m.quarters(last, c.Tick), c.Is})
	}
}

// quarters returns the quarter notes at a tick after a change of tempo.
func (m *midiImport) quarters(after tempoChange, tick int) float64 {
	return after.Quarters + float64(tick-after.Tick)/m.file.PerSec*after.Tempo/60
}

func (f *midiFile) remarks(im *melody.Import) {
	for i, t := range f.Tracks {
		if t.Cut {
			im.Remark("track %d stops without an end of track", i+1)
		}
		if t.Open > 0 {
			im.Remark("%s of track %d never ended and last to its end", pitch.Count(t.Open, "note"), i+1)
		}
	}
	if f.odd > 0 {
		im.Remark("%s that no bar can have left out", pitch.Count(f.odd, "time signature"))
	}
}

// tempo takes the tempo at the first note.
func (m *midiImport) tempo() {
	first := m.firstTick()
	m.Tempo = defaultTempo
	if tempo, ok := at(m.file.Tempos, first); ok {
		m.Tempo = roundTempo(tempo)
	}
	later := 0
	for _, c := range m.file.Tempos {
		if c.Tick > first {
			later++
		}
	}
	if later > 0 {
		m.Remark("the tempo at the first note is kept; %s after it left out", pitch.Count(later, "tempo change"))
	}
}

// roundTempo returns the tempo that a file means. Whole microseconds can't give
// 84 quarter notes a minute exactly, so a tempo less than a microsecond from a
// whole hundredth is that hundredth (some programs round, some truncate).
func roundTempo(tempo float64) float64 {
	hundredths := math.Round(tempo*100) / 100
	if hundredths > 0 && math.Abs(microsecondsPerMinute/hundredths-microsecondsPerMinute/tempo) < 1 {
		return hundredths
	}
	return tempo
}

func (m *midiImport) firstTick() int {
	first := math.MaxInt
	for _, t := range m.file.Tracks {
		for _, n := range t.Notes {
			if n.Channel != drumChannel {
				first = min(first, n.Start)
			}
		}
	}
	return first
}

// chords takes the markers as chord symbols, if every one is a chord symbol and
// they are not section letters (A, B, C in that order). Of those before the
// line, the last counts, from the line's beginning.
func (m *midiImport) chords() {
	markers := slices.DeleteFunc(slices.Clone(m.file.Markers), func(c midiChange[string]) bool { return c.Is == loopEnd })
	sections := true
	for i, c := range markers {
		if _, err := pitch.ParseChord(c.Is); err != nil {
			return
		}
		sections = sections && c.Is == string(rune('A'+i))
	}
	if sections {
		return
	}
	for _, c := range markers {
		start := max(m.beat(c.Tick)-m.zero, -m.Rhythm.Pickup)
		m.Chords = melody.AddChord(m.Chords, exercise.GivenChord{Start: start, Symbol: c.Is})
	}
}

// spell names the notes by the key signature, or by the best key.
func (m *midiImport) spell() {
	keys := make([]int, len(m.Notes))
	for i, n := range m.Notes {
		keys[i] = n.Pitch.MIDI()
	}
	fifths, given := at(m.file.Keys, m.firstTick())
	if !given {
		fifths = melody.BestKey(keys)
	}
	for i := range m.Notes {
		m.Notes[i].Pitch = melody.Spell(keys[i], fifths)
	}
}
