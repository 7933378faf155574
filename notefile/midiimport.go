package notefile

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"heddle/line"
	"heddle/pitch"
)

// drumChannel is the channel of percussion, counted from 0 (General MIDI 1).
const drumChannel = 9

// defaultTempo is the tempo of a file that states none, by the standard.
const defaultTempo = 120

// importMIDI makes a line of a Standard MIDI File.
func importMIDI(content []byte) (Import, error) {
	f, err := parseSMF(content)
	if err != nil {
		return Import{}, fmt.Errorf("MIDI file: %w", err)
	}
	sortChanges(f)
	m := midiImport{file: f}
	if err := m.run(); err != nil {
		return Import{}, fmt.Errorf("MIDI file: %w", err)
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

// at returns what holds at a tick: the last change not after it.
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
	Import
	file *midiFile
	zero line.Beat // the first bar line, from the file's beginning
}

func (m *midiImport) run() error {
	parts, named := m.parts()
	chosen := choosePart(parts)
	if chosen < 0 {
		return errors.New("no notes, drums aside")
	}
	m.take(parts, chosen)
	m.file.remarks(&m.Import)
	if err := m.bar(); err != nil {
		return err
	}
	m.unswing()
	if !named[chosen] {
		m.tidy()
	}
	m.Pickup = max(0, -m.Notes[0].Start)
	m.Title = m.file.Tracks[0].Name
	m.tempo()
	m.chords()
	if !named[chosen] {
		m.spell()
	}
	return nil
}

// parts gathers the notes of each track, or, in a file of one track, of each
// channel. It also says which parts have their names from lyrics.
func (m *midiImport) parts() (parts []part, named []bool) {
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
			p, ok := m.part(name, notes, t.Lyrics)
			parts, named = append(parts, p), append(named, ok)
		}
	}
	return parts, named
}

// part turns one part's notes into beats, and names them by lyrics if those
// name every one.
func (m *midiImport) part(name string, notes []midiNote, lyrics map[int]string) (p part, named bool) {
	p, named = part{Name: name}, true
	for _, n := range notes {
		start, end := m.beat(n.Start), m.beat(n.End)
		sounding := spell(n.Key, 0)
		said, ok := nameSaid(lyrics[n.Start], n.Key%12)
		if named = named && ok; ok {
			sounding = pitch.Named(said, n.Key)
		}
		p.Notes = append(p.Notes, Note{Note: line.Note{Pitch: sounding, Scale: line.Chromatic,
			Start: start, Duration: max(1, end-start), Role: line.PatternRole}})
	}
	return p, named
}

// beat returns the beat of a tick. With SMPTE division ticks are time, and
// beats follow from the tempo in force.
func (m *midiImport) beat(tick int) line.Beat {
	if m.file.Division > 0 {
		return line.Beat(math.Round(float64(tick) * float64(quarter) / float64(m.file.Division)))
	}
	quarters, from, tempo := 0.0, 0, float64(defaultTempo)
	for _, c := range m.file.Tempos {
		if c.Tick >= tick {
			break
		}
		quarters += float64(c.Tick-from) / m.file.PerSec * tempo / 60
		from, tempo = c.Tick, c.Is
	}
	quarters += float64(tick-from) / m.file.PerSec * tempo / 60
	return line.Beat(math.Round(quarters * float64(quarter)))
}

// remarks says what was wrong with a file that could still be read.
func (f *midiFile) remarks(im *Import) {
	for i, t := range f.Tracks {
		if t.Cut {
			im.remark("track %d stops without an end of track", i+1)
		}
		if t.Open > 0 {
			im.remark("%s of track %d never ended and last to its end", count(t.Open, "note"), i+1)
		}
	}
	if f.odd > 0 {
		im.remark("%s that no bar can have left out", count(f.odd, "time signature"))
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
		m.remark("the tempo at the first note is kept; %s after it left out", count(later, "tempo change"))
	}
}

// roundTempo returns the tempo that a file means: microseconds can't state 84
// quarter notes a minute, so a tempo in whole hundredths that is less than a
// microsecond away is that. Some programs round, some cut off.
func roundTempo(tempo float64) float64 {
	hundredths := math.Round(tempo*100) / 100
	if hundredths > 0 && math.Abs(microsecondsPerMinute/hundredths-microsecondsPerMinute/tempo) < 1 {
		return hundredths
	}
	return tempo
}

// firstTick returns the tick of the earliest note of any part but drums.
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

// chords takes the markers for chord symbols, if every one reads as one and
// they are not the letters of sections (A, B, C in that order). Of those before the line the last one counts, from its beginning.
func (m *midiImport) chords() {
	sections := true
	for i, c := range m.file.Markers {
		if _, err := pitch.ParseChord(c.Is); err != nil {
			return
		}
		sections = sections && c.Is == string(rune('A'+i))
	}
	if sections {
		return
	}
	for _, c := range m.file.Markers {
		start := max(m.beat(c.Tick)-m.zero, -m.Pickup)
		m.Chords = addChord(m.Chords, ChordSymbol{Start: start, Symbol: c.Is})
	}
}

// spell names the notes by the key signature, or by the best key.
func (m *midiImport) spell() {
	keys := make([]int, len(m.Notes))
	for i, n := range m.Notes {
		keys[i] = n.Pitch.MIDI()
	}
	fifths, told := at(m.file.Keys, m.firstTick())
	if !told {
		fifths = bestKey(keys)
	}
	for i := range m.Notes {
		m.Notes[i].Pitch = spell(keys[i], fifths)
	}
}
