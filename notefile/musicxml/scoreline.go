package musicxml

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/pitch"
)

// line returns the line of the score, from the part that is wanted.
func (s *scoreReader) line(part string) (melody.Import, error) {
	var im melody.Import
	im.Title = cmp.Or(s.title, s.movement)
	var scores []*scorePart
	var parts []melody.Part
	for i, id := range s.order {
		p := s.parts[id]
		if v := p.melodyVoice(); v != nil {
			name := cmp.Or(s.names[id], id, fmt.Sprintf("part %d", i+1))
			scores = append(scores, p)
			parts = append(parts, melody.Part{Name: name, Notes: p.notes(v)})
		}
	}
	chosen, err := melody.Choose(parts, part)
	if err != nil {
		return melody.Import{}, err
	}
	if chosen < 0 {
		return melody.Import{}, errors.New("no pitched notes")
	}
	p := scores[chosen]
	p.about(&im)
	im.Take(parts, chosen)
	p.remarks(&im)
	borrowSpots(&im, scores, parts, chosen)
	checkSpots(&im)
	s.tempo(&im)
	s.chords(&im, p)
	if err := im.CheckLength(); err != nil {
		return melody.Import{}, err
	}
	return im, nil
}

// melodyVoice returns the voice with the most notes (the first in a tie), or nil
// for a part without notes.
func (p *scorePart) melodyVoice() *voice {
	var most *voice
	for _, v := range p.voices {
		if most == nil || len(v.notes) > len(most.notes) {
			most = v
		}
	}
	return most
}

// zero returns the position of the first bar line: after the pickup measure, if
// there is one. That is a first measure shorter than the metre which is implicit
// or not the only one, or an implicit one of full length that begins with a
// rest, as where a tuplet fills the beat before the pickup.
func (p *scorePart) zero() float64 {
	bar := line.CommonTime.Bar().Quarters()
	if len(p.meters) > 0 {
		bar = p.meters[0].Is.Bar().Quarters()
	}
	short := p.first.Length < bar-sameTime
	late := false
	if v := p.melodyVoice(); v != nil && len(v.notes) > 0 && p.first.Length < bar+sameTime {
		late = v.notes[0].At > sameTime && v.notes[0].At < p.first.Length-sameTime
	}
	if short && (p.first.Implicit || p.measures > 1) || late && p.first.Implicit {
		return p.first.Length
	}
	return 0
}

func (p *scorePart) beat(at float64) line.Beat {
	return line.Beat(math.Round((at - p.zero()) * float64(line.Quarter)))
}

// notes returns the notes of a voice in beats. Other voices of the part may add
// to the same notes: a tablature staff has the spots.
func (p *scorePart) notes(v *voice) []exercise.GivenNote {
	notes := make([]exercise.GivenNote, 0, len(v.notes))
	index := make(map[sound]int, len(v.notes))
	for _, n := range v.notes {
		n.Start = p.beat(n.At)
		n.Duration = p.beat(n.Until) - n.Start
		if n.Duration <= 0 {
			continue
		}
		index[sound{int(n.Start), n.Pitch.MIDI()}] = len(notes)
		notes = append(notes, n.GivenNote)
	}
	for _, other := range p.voices {
		if other == v {
			continue
		}
		for _, n := range other.notes {
			if i, ok := index[sound{int(p.beat(n.At)), n.Pitch.MIDI()}]; ok {
				adopt(&notes[i], n.GivenNote)
			}
		}
	}
	return notes
}

// about reads what holds for the line as a whole. The pickup begins with the
// first note of the melody, not with the measure.
func (p *scorePart) about(im *melody.Import) {
	im.Rhythm.Meter = line.CommonTime
	if len(p.meters) > 0 {
		im.Rhythm.Meter = p.meters[0].Is
	}
	im.Rhythm.Swing = p.swing
	im.Open, im.Capo = p.open, p.capo
	first := math.MaxFloat64
	for _, n := range p.melodyVoice().notes {
		first = min(first, n.At)
	}
	im.Rhythm.Pickup = max(0, -p.beat(first))
}

func (p *scorePart) remarks(im *melody.Import) {
	line := p.melodyVoice()
	heard := map[sound]bool{}
	for _, n := range line.notes {
		heard[soundOf(n)] = true
	}
	left := 0
	for _, v := range p.voices {
		for _, n := range v.notes {
			if v != line && !heard[soundOf(n)] {
				left++
			}
		}
	}
	if left > 0 {
		im.Remark("%s in other voices left out", pitch.Count(left, "note"))
	}
	changes := 0
	for i := 1; i < len(p.meters); i++ {
		if p.meters[i].Is != p.meters[i-1].Is {
			changes++
		}
	}
	for _, left := range []struct {
		n     int
		thing string
	}{
		{p.graces, "grace note"}, {p.cues, "cue note"}, {changes, "metre change"}, {max(0, p.swings-1), "change of swing"},
		{p.oddSwings, "swing of another value than eighth"},
	} {
		if left.n > 0 {
			im.Remark("%s left out", pitch.Count(left.n, left.thing))
		}
	}
	if p.oddMeters > 0 {
		im.Remark("%s that no line can have left out", pitch.Count(p.oddMeters, "time signature"))
	}
	if p.microtones > 0 {
		im.Remark("%s rounded to the semitone", pitch.Count(p.microtones, "quarter tone"))
	}
	if p.repeats > 0 {
		im.Remark("repeats are not played out: every measure is read once")
	}
}

// A sound identifies a note by its position, in a unit of the caller's, and its
// key.
type sound struct{ at, key int }

func soundOf(n scoreNote) sound {
	return sound{int(math.Round(1000 * n.At)), n.Pitch.MIDI()}
}

// tempo takes the first tempo of the score, and reports if there are others.
func (s *scoreReader) tempo(im *melody.Import) {
	var first *placed[float64]
	others := map[float64]bool{}
	for _, id := range s.order {
		for i, t := range s.parts[id].tempos {
			if first == nil || t.At < first.At {
				first = &s.parts[id].tempos[i]
			}
			others[t.Is] = true
		}
	}
	if first == nil {
		return
	}
	im.Tempo = first.Is
	if len(others) > 1 {
		im.Remark("the first tempo (%s) is kept; others left out", fmt.Sprint(first.Is))
	}
}

// mostDegrees limits the degrees of a chord besides its kind: one for each of
// the twelve notes.
const mostDegrees = 12

func (p *scorePart) harmony(h xmlHarmony) error {
	if len(h.Degrees) > mostDegrees {
		return fmt.Errorf("a harmony has %d degrees, want at most %d", len(h.Degrees), mostDegrees)
	}
	symbol := symbolOf(h)
	if symbol == "" {
		return nil
	}
	at := p.now
	if offset := strings.TrimSpace(h.Offset); offset != "" {
		if x, err := strconv.ParseFloat(offset, 64); err == nil && math.Abs(x/p.divisions) <= longestScore {
			at += x / p.divisions
		}
	}
	p.chords = append(p.chords, placed[string]{at, symbol})
	return nil
}

// chords takes the chord symbols of the line's part or, if it has none, of the
// first part that has some.
func (s *scoreReader) chords(im *melody.Import, p *scorePart) {
	im.Chords = p.chordSymbols(im.Rhythm.Pickup)
	for i := 0; i < len(s.order) && len(im.Chords) == 0; i++ {
		im.Chords = s.parts[s.order[i]].chordSymbols(im.Rhythm.Pickup)
	}
}

// chordSymbols returns the chords of a part in beats. Of those before the line,
// the last counts, from the line's beginning.
func (p *scorePart) chordSymbols(pickup line.Beat) []exercise.GivenChord {
	var chords []exercise.GivenChord
	for _, c := range p.chords {
		chords = melody.AddChord(chords, exercise.GivenChord{Start: max(p.beat(c.At), -pickup), Symbol: c.Is})
	}
	return chords
}
