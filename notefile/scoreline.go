package notefile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// line makes the import of what was read.
func (s *scoreReader) line() (Import, error) {
	var im Import
	im.Title = or(s.title, s.subject)
	var scores []*scorePart
	var parts []part
	for _, id := range s.order {
		p := s.parts[id]
		if v := p.melodyVoice(); v != nil {
			scores = append(scores, p)
			parts = append(parts, part{Name: s.nameOf(id), Notes: p.notes(v)})
		}
	}
	chosen := choosePart(parts)
	if chosen < 0 {
		return Import{}, errors.New("no pitched notes")
	}
	p := scores[chosen]
	p.about(&im)
	im.take(parts, chosen)
	p.remarks(&im)
	borrowSpots(&im, scores, parts, chosen)
	im.checkSpots()
	s.tempo(&im)
	s.chords(&im, p)
	if bars := int(im.Notes[len(im.Notes)-1].End() / im.Meter.Bar()); bars > maxBars {
		return Import{}, &pitch.InputError{What: "length of the line", Value: strconv.Itoa(bars) + " bars", Want: "at most " + strconv.Itoa(maxBars)}
	}
	return im, nil
}

// nameOf returns the name of a part, or its id, or its place in the file.
func (s *scoreReader) nameOf(id string) string {
	name := ""
	for _, p := range s.names {
		if p.ID == id {
			name = cleanText([]byte(p.Name))
		}
	}
	return or(name, or(cleanText([]byte(id)), fmt.Sprintf("part %d", slices.Index(s.order, id)+1)))
}

// melodyVoice returns the voice with the most notes, the first among equals,
// or nil for a part without notes.
func (p *scorePart) melodyVoice() *voice {
	var most *voice
	for _, v := range p.voices {
		if most == nil || len(v.notes) > len(most.notes) {
			most = v
		}
	}
	return most
}

// zero returns where the first bar line is: after a pickup measure, which is
// implicit or shorter than the metre asks and not the only one.
func (p *scorePart) zero() float64 {
	bar := line.CommonTime.Bar().Quarters()
	if len(p.meters) > 0 {
		bar = p.meters[0].Is.Bar().Quarters()
	}
	if p.first.Length < bar-sameTime && (p.first.Implicit || p.measures > 1) {
		return p.first.Length
	}
	return 0
}

// beat returns the beat of a place.
func (p *scorePart) beat(at float64) line.Beat {
	return line.Beat(math.Round((at - p.zero()) * float64(quarter)))
}

// notes returns the notes of a voice in beats, with what other voices of the
// part say about the same notes: a tablature staff says the spots.
func (p *scorePart) notes(v *voice) []Note {
	type sound struct {
		start line.Beat
		key   int
	}
	notes := make([]Note, 0, len(v.notes))
	index := make(map[sound]int, len(v.notes))
	for _, n := range v.notes {
		n.Start = p.beat(n.At)
		n.Duration = p.beat(n.Until) - n.Start
		if n.Duration <= 0 {
			continue
		}
		index[sound{n.Start, n.Pitch.MIDI()}] = len(notes)
		notes = append(notes, n.Note)
	}
	for _, other := range p.voices {
		if other == v {
			continue
		}
		for _, n := range other.notes {
			if i, ok := index[sound{p.beat(n.At), n.Pitch.MIDI()}]; ok {
				notes[i].adopt(n.Fingering)
			}
		}
	}
	return notes
}

// about takes what the part says about the line as a whole. The first note of
// the melody, not the measure, tells how long a pickup is.
func (p *scorePart) about(im *Import) {
	im.Meter = line.CommonTime
	if len(p.meters) > 0 {
		im.Meter = p.meters[0].Is
	}
	im.Swing = p.swing
	im.Open, im.Capo = p.open, p.capo
	first := math.MaxFloat64
	for _, n := range p.melodyVoice().notes {
		first = min(first, n.At)
	}
	im.Pickup = max(0, -p.beat(first))
}

// remarks says what of the part is left out.
func (p *scorePart) remarks(im *Import) {
	melody := p.melodyVoice()
	left := 0
	heard := map[string]bool{}
	for _, n := range melody.notes {
		heard[soundID(n)] = true
	}
	for _, v := range p.voices {
		for _, n := range v.notes {
			if v != melody && !heard[soundID(n)] {
				left++
			}
		}
	}
	if left > 0 {
		im.remark("%s in other voices left out", count(left, "note"))
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
			im.remark("%s left out", count(left.n, left.thing))
		}
	}
	if p.oddMeters > 0 {
		im.remark("%s that no line can have left out", count(p.oddMeters, "time signature"))
	}
	if p.microtones > 0 {
		im.remark("%s rounded to the semitone", count(p.microtones, "quarter tone"))
	}
	if p.repeats > 0 {
		im.remark("repeats are not played out: every measure is read once")
	}
}

// soundID tells apart what sounds in a part.
func soundID(n scoreNote) string {
	return strconv.FormatFloat(n.At, 'f', 3, 64) + " " + strconv.Itoa(n.Pitch.MIDI())
}

// tempo takes the first tempo of the score, and says that there are others.
func (s *scoreReader) tempo(im *Import) {
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
		im.remark("the first tempo (%s) is kept; others left out", decimal(first.Is))
	}
}

// harmony reads a chord symbol.
func (p *scorePart) harmony(h xmlHarmony) {
	symbol := symbolOf(h)
	if symbol == "" {
		return
	}
	at := p.now
	if offset := strings.TrimSpace(h.Offset); offset != "" {
		if x, err := strconv.ParseFloat(offset, 64); err == nil && math.Abs(x/p.divisions) <= longestScore {
			at += x / p.divisions
		}
	}
	p.chords = append(p.chords, placed[string]{at, symbol})
}

// chords takes the chord symbols of the line's part, or, if it has none, of the
// first that has.
func (s *scoreReader) chords(im *Import, p *scorePart) {
	im.Chords = p.chordSymbols(im.Pickup)
	for i := 0; i < len(s.order) && len(im.Chords) == 0; i++ {
		im.Chords = s.parts[s.order[i]].chordSymbols(im.Pickup)
	}
}

// chordSymbols returns the chords of a part in beats. Of those before the line
// the last one counts, from its beginning.
func (p *scorePart) chordSymbols(pickup line.Beat) []ChordSymbol {
	var chords []ChordSymbol
	for _, c := range p.chords {
		chords = addChord(chords, ChordSymbol{Start: max(p.beat(c.At), -pickup), Symbol: c.Is})
	}
	return chords
}
