package musicxml

import (
	"fmt"
	"io"
	"strconv"
	"unicode"
	"unicode/utf8"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/notefile/sheet"
	"heddle/pitch"
)

// Write writes an exercise as an uncompressed MusicXML 4.0 file: one part with
// notation above tablature, with strings, frets, fingering and strokes, chord
// symbols, tempo and swing, and a bracket with the scale's name over each
// group. Notes have the ids note-0, note-1 …, tablature numbers tab-0, tab-1 …;
// the later pieces of a tied note have their distance from its start appended.
//
// It returns an error for an exercise that can't be written down (notes that
// overlap, an impossible metre) and for a failing writer.
func Write(w io.Writer, ex *exercise.Exercise) error {
	bars, err := sheet.Bars(ex)
	if err != nil {
		return err
	}
	p := newPage(ex, bars)
	p.out.WriteString(xmlHead)
	p.start("score-partwise", "version", "4.0")
	p.header()
	p.start("part", "id", partID)
	for i := range bars {
		p.measure(i)
	}
	p.end()
	p.end()
	_, err = w.Write(p.out.Bytes())
	return err
}

const (
	xmlHead = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
`
	partID = "P1"

	staffNotes, staffTab = 1, 2
	voiceNotes, voiceTab = "1", "2"
)

// A page is a MusicXML file being written.
type page struct {
	markup
	ex          *exercise.Exercise
	bars        []line.Bar
	written     [][]line.Written // of each bar
	joints      []joint
	runs        []sheet.Run
	labels      []string
	chords      int // how many chord symbols are written
	nextRun     int // the first run whose bracket is not closed
	accidentals pitch.Accidentals
}

func newPage(ex *exercise.Exercise, bars []line.Bar) *page {
	runs := sheet.Runs(ex.Notes)
	written := line.Write(ex.Rhythm.Meter, bars, spansOf(ex.Notes))
	return &page{ex: ex, bars: bars, written: written, joints: jointsOf(ex.Notes), runs: runs, labels: sheet.Labels(ex, runs)}
}

func (p *page) header() {
	p.start("work")
	p.text("work-title", p.ex.Title())
	p.end()
	p.start("identification")
	p.start("encoding")
	p.text("software", "heddle")
	p.empty("supports", "element", "accidental", "type", "yes")
	p.empty("supports", "element", "beam", "type", "yes")
	p.empty("supports", "element", "stem", "type", "no")
	p.end()
	if p.ex.Sentence != "" {
		p.start("miscellaneous")
		p.text("miscellaneous-field", p.ex.Sentence, "name", "sentence")
		p.end()
	}
	p.end()
	name := capital(p.ex.Instrument.Name)
	p.start("part-list")
	p.start("score-part", "id", partID)
	p.text("part-name", name)
	p.start("score-instrument", "id", partID+"-I1")
	p.text("instrument-name", name)
	p.end()
	p.start("midi-instrument", "id", partID+"-I1")
	p.number("midi-channel", sheet.LineChannel+1)
	p.number("midi-program", sheet.Program(p.ex.Instrument)+1)
	p.end()
	p.end()
	p.end()
}

// attributes writes the attributes of the first bar: divisions, metre, clefs and
// tuning.
func (p *page) attributes() {
	in := p.ex.Instrument
	p.start("attributes")
	p.number("divisions", int(line.Quarter))
	p.start("key")
	p.number("fifths", 0)
	p.end()
	p.start("time")
	p.number("beats", p.ex.Rhythm.Meter.Beats)
	p.number("beat-type", p.ex.Rhythm.Meter.Unit)
	p.end()
	if in.Strings() > 0 {
		p.number("staves", 2)
	}
	p.clef(in.Clef())
	if in.Strings() > 0 {
		p.tablature()
	}
	p.end()
}

// clef writes the clef of the notation staff: F on the fourth line, or G on the
// second.
func (p *page) clef(c neck.Clef) {
	sign, staffLine := "G", 2
	if c.Bass {
		sign, staffLine = "F", 4
	}
	p.start("clef", "number", strconv.Itoa(staffNotes))
	p.text("sign", sign)
	p.number("line", staffLine)
	if c.Octave != 0 {
		p.number("clef-octave-change", c.Octave)
	}
	p.end()
}

// tablature writes the clef, lines, tuning and capo of the tablature staff.
// Lines are counted from the lowest, which is the lowest string. The tuning is
// without the capo.
func (p *page) tablature() {
	in := p.ex.Instrument
	p.start("clef", "number", strconv.Itoa(staffTab))
	p.text("sign", "TAB")
	p.number("line", max(1, in.Strings()-1))
	p.end()
	p.start("staff-details", "number", strconv.Itoa(staffTab))
	p.number("staff-lines", in.Strings())
	for i := range in.Open {
		open := in.Open[len(in.Open)-1-i]
		p.start("staff-tuning", "line", strconv.Itoa(i+1))
		p.text("tuning-step", open.Name.Letter.String())
		if open.Name.Accidental != 0 {
			p.number("tuning-alter", open.Name.Accidental)
		}
		p.number("tuning-octave", open.Octave)
		p.end()
	}
	if in.Capo > 0 {
		p.number("capo", in.Capo)
	}
	p.end()
}

// tempo writes the tempo and the swing, both as marks and for playback.
func (p *page) tempo() {
	p.start("direction", "placement", "above")
	p.start("direction-type")
	p.start("metronome")
	counted := p.ex.Rhythm.Meter.Counted()
	unit, _ := line.NoteValueOf(counted)
	p.text("beat-unit", valueTypes[unit.Halvings])
	if unit.Dots > 0 {
		p.empty("beat-unit-dot")
	}
	p.text("per-minute", strconv.FormatFloat(p.ex.Tempo*float64(line.Quarter)/float64(counted), 'g', 5, 64))
	p.end()
	p.end()
	p.number("staff", staffNotes)
	p.empty("sound", "tempo", fmt.Sprint(p.ex.Tempo))
	p.end()
	swing := p.ex.Rhythm.Swing
	if swing.Straight() {
		return
	}
	p.start("direction", "placement", "above")
	p.start("direction-type")
	p.text("words", capital(swing.String()))
	p.end()
	p.number("staff", staffNotes)
	p.start("sound")
	p.start("swing")
	p.number("first", swing.Long)
	p.number("second", swing.Short)
	p.text("swing-type", "eighth")
	p.end()
	p.end()
	p.end()
}

func capital(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + words[size:]
}

func spansOf(notes []exercise.Note) []line.Span {
	spans := make([]line.Span, len(notes))
	for i, n := range notes {
		spans[i] = line.Span{Note: i, Start: n.Start, End: n.End()}
	}
	return spans
}
