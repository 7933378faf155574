package exercise

import (
	"strconv"
	"strings"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A cut is a range of the built notes, counted from 1, both ends included. The zero
// cut is the whole line.
type cut struct{ from, to int }

func (c cut) whole() bool { return c == cut{} }

// String returns what readCut reads: "5-10".
func (c cut) String() string { return strconv.Itoa(c.from) + "-" + strconv.Itoa(c.to) }

// readCut reads the range of notes that the line is cut to.
func (p *plan) readCut() error {
	s := &p.spec
	if s.Cut == "" {
		return nil
	}
	first, last, _ := strings.Cut(strings.ReplaceAll(s.Cut, "–", "-"), "-")
	from, errFrom := strconv.Atoi(strings.TrimSpace(first))
	to, errTo := strconv.Atoi(strings.TrimSpace(last))
	if errFrom != nil || errTo != nil || from < 1 || to <= from {
		return &pitch.InputError{What: "cut", Value: s.Cut, Want: "the first and last note of a range counted from 1, such as 5-10"}
	}
	p.cut = cut{from, to}
	s.Cut = p.cut.String()
	return nil
}

// cutNotes keeps only a range of the notes. They keep their names, places, fingers,
// strokes and positions in the bar, and the first falls in bar 1.
func (ex *Exercise) cutNotes(p *plan) error {
	if p.cut.whole() {
		return nil
	}
	if p.cut.to > len(ex.Notes) {
		return &pitch.InputError{What: "cut", Value: p.spec.Cut, Want: "notes from 1 to " + strconv.Itoa(len(ex.Notes)) + ", as many as the line has"}
	}
	ex.Notes = ex.Notes[p.cut.from-1 : p.cut.to : p.cut.to]
	ex.Endings, ex.Rhythm.Pickup, ex.Cycle = nil, 0, line.Cycle{}
	ex.Pattern = max(0, min(len(ex.Notes), ex.Pattern-p.cut.from+1))
	bar := ex.Rhythm.Meter.Bar()
	ex.move(-line.FloorDiv(ex.Notes[0].Start, bar) * bar)
	return ex.measure(p)
}

// move shifts the notes and chords in time. The length becomes that of the whole bars
// which hold the notes.
func (ex *Exercise) move(by line.Beat) {
	group := ex.Notes[0].Group
	for i := range ex.Notes {
		n := &ex.Notes[i]
		n.Index, n.Group, n.Start = i, n.Group-group, n.Start+by
	}
	bar := ex.Rhythm.Meter.Bar()
	ex.Length = -line.FloorDiv(-ex.Notes[len(ex.Notes)-1].End(), bar) * bar
	var chords []Chord
	for i, c := range ex.Chords {
		c.Start, c.End = max(0, c.Start+by), min(ex.Length, c.End+by)
		if i == 0 {
			c.Start = 0 // it also counts before its start
		}
		if i == len(ex.Chords)-1 {
			c.End = ex.Length
		}
		if c.Start < c.End {
			chords = append(chords, c)
		}
	}
	ex.Chords = chords
}

// measure sums up how the hands move in the notes as they are fingered.
func (ex *Exercise) measure(p *plan) (err error) {
	list := make([]finger.Note, len(ex.Notes))
	for i, n := range ex.Notes {
		list[i] = finger.Note{Start: n.Start, Duration: n.Duration, MIDI: ex.Instrument.MIDI(n.Spot), Bend: float64(n.Touch.Bend), Group: n.Group, Spots: []neck.Spot{n.Spot}, Given: n.Finger}
	}
	_, ex.Hand, err = finger.Assign(ex.Instrument, list, p.technique())
	return err
}
