package musicxml

import (
	"strconv"

	"heddle/finger"
	"heddle/line"
)

// measure writes one bar: the notation staff with its chord symbols and group
// brackets, then, backed up to the bar line, the tablature.
func (p *page) measure(i int) {
	b, written := p.bars[i], p.written[i]
	p.start("measure", numbering(b)...)
	if i == 0 {
		p.attributes()
		p.tempo()
	}
	p.accidentals.BarLine()
	for _, s := range written {
		p.chordSymbols(s)
		p.openBracket(s)
		p.staffNote(s)
		p.closeBracket(s)
	}
	if p.ex.Instrument.Strings() > 0 {
		p.start("backup")
		p.number("duration", int(b.End-b.Start))
		p.end()
		for _, s := range written {
			p.tabNote(s)
		}
	}
	if i == len(p.bars)-1 {
		p.start("barline", "location", "right")
		p.text("bar-style", "light-heavy")
		p.end()
	}
	p.end()
}

// numbering returns the attributes of a measure: its number, 0 for a pickup as
// is common practice, with an X for bars before that.
func numbering(b line.Bar) []string {
	switch {
	case b.Number < 0:
		return []string{"number", "X" + strconv.Itoa(-b.Number), "implicit", "yes"}
	case b.Number == 0:
		return []string{"number", "0", "implicit", "yes"}
	}
	return []string{"number", strconv.Itoa(b.Number)}
}

// chordSymbols writes the chords that begin during a sign. A chord that begins
// before the page is written at its beginning.
func (p *page) chordSymbols(s line.Written) {
	for ; p.chords < len(p.ex.Chords); p.chords++ {
		c := p.ex.Chords[p.chords]
		if c.Start >= s.End {
			return
		}
		p.harmony(c.Chord, int(max(0, c.Start-s.Start)))
	}
}

// openBracket writes the scale's name and the start of the bracket before the
// first sign of a group.
func (p *page) openBracket(s line.Written) {
	if p.nextRun >= len(p.runs) || s.Note != p.runs[p.nextRun].First || s.TieFrom {
		return
	}
	r := p.runs[p.nextRun]
	p.start("direction", "placement", "above")
	p.start("direction-type")
	p.text("words", p.labels[p.nextRun])
	p.end()
	p.start("direction-type")
	p.empty("bracket", "type", "start", "number", "1", "line-end", "down", "line-type", bracketLine(p.ex, r))
	p.end()
	p.number("staff", staffNotes)
	p.end()
}

func (p *page) closeBracket(s line.Written) {
	if p.nextRun >= len(p.runs) || s.Note != p.runs[p.nextRun].Last || s.TieTo {
		return
	}
	p.nextRun++
	p.start("direction", "placement", "above")
	p.start("direction-type")
	p.empty("bracket", "type", "stop", "number", "1", "line-end", "down")
	p.end()
	p.number("staff", staffNotes)
	p.end()
}

func (p *page) staffNote(s line.Written) {
	p.startNote(s, "note")
	p.text("voice", voiceNotes)
	p.valueOf(s)
	switch {
	case s.Note == line.Silence:
	case s.TieFrom:
		p.accidentals.Tied(p.ex.Notes[s.Note].Pitch)
	default:
		p.accidental(p.ex.Notes[s.Note].Pitch)
	}
	p.timeModification(s)
	p.ghost(s)
	p.number("staff", staffNotes)
	for level, b := range s.Beams {
		p.text("beam", beamWords[b], "number", strconv.Itoa(level+1))
	}
	p.staffNotations(s)
	p.end()
}

// tabNote writes a sign on the tablature staff. Rests are not shown there.
func (p *page) tabNote(s line.Written) {
	p.startNote(s, "tab")
	p.text("voice", voiceTab)
	p.valueOf(s)
	p.timeModification(s)
	if s.Note != line.Silence {
		p.text("stem", "none")
	}
	p.ghost(s)
	p.number("staff", staffTab)
	p.tabNotations(s)
	p.end()
}

// startNote opens a note or rest and writes its pitch, duration and ties.
func (p *page) startNote(s line.Written, staff string) {
	switch {
	case s.Note == line.Silence && staff == "tab":
		p.start("note", "print-object", "no")
	case s.Note == line.Silence:
		p.start("note")
	default:
		p.start("note", "id", p.noteID(s, staff))
	}
	switch {
	case s.WholeBar:
		p.empty("rest", "measure", "yes")
	case s.Note == line.Silence:
		p.empty("rest")
	default:
		sounding := p.pitchOn(s, staff)
		p.start("pitch")
		p.text("step", sounding.Name.Letter.String())
		if sounding.Name.Accidental != 0 {
			p.number("alter", sounding.Name.Accidental)
		}
		p.number("octave", sounding.Octave)
		p.end()
	}
	p.number("duration", int(s.End-s.Start))
	p.edges("tie", s.TieFrom, s.TieTo)
}

// edges writes the end of something that comes from the note before and the start
// of what goes on to the next.
func (p *page) edges(name string, stop, start bool, attributes ...string) {
	if stop {
		p.empty(name, append([]string{"type", "stop"}, attributes...)...)
	}
	if start {
		p.empty(name, append([]string{"type", "start"}, attributes...)...)
	}
}

// noteID returns the id of a sign: its note's index and, for a later piece of a
// tied note, the distance from the note's start.
func (p *page) noteID(s line.Written, staff string) string {
	id := staff + "-" + strconv.Itoa(s.Note)
	if s.TieFrom {
		id += "-" + strconv.Itoa(int(s.Start-p.ex.Notes[s.Note].Start))
	}
	return id
}

// valueOf writes the drawn value. A whole-bar rest has none.
func (p *page) valueOf(s line.Written) {
	if s.WholeBar {
		return
	}
	p.text("type", valueTypes[s.Value.Halvings])
	for range s.Value.Dots {
		p.empty("dot")
	}
}

func (p *page) timeModification(s line.Written) {
	if s.Tuplet == nil {
		return
	}
	p.start("time-modification")
	p.number("actual-notes", s.Tuplet.Actual)
	p.number("normal-notes", s.Tuplet.Normal)
	p.end()
}

func (p *page) staffNotations(s line.Written) {
	from, to, fingering := p.ends(s)
	if !s.TieFrom && !s.TieTo && !s.Opens() && !s.Closes() && from == nil && to == nil && fingering == nil && !p.shaped(s) {
		return
	}
	p.start("notations")
	p.edges("tied", s.TieFrom, s.TieTo)
	p.tuplets(s, "bracket", "no")
	p.edges("slur", from != nil && from.Closes, to != nil && to.Opens, "number", "1")
	p.slides(from, to)
	p.shiftSlides(s)
	p.shape(s)
	p.hands(fingering, from, to)
	p.end()
}

// strokeElements are MusicXML's elements for the strokes of the picking hand.
var strokeElements = map[finger.Stroke]string{finger.Down: "down-bow", finger.Up: "up-bow"}

// hands writes what both hands do at a note: the picked stroke or the legato
// stroke, and the finger.
func (p *page) hands(f *finger.Fingering, from, to *joint) {
	stroke, fingered := "", false
	if f != nil {
		stroke, fingered = strokeElements[f.Stroke], f.Finger > 0 || f.Fret == 0
	}
	hammered := from != nil && hammerLetters[from.From] != ""
	hammers := to != nil && hammerLetters[to.To] != ""
	if stroke == "" && !fingered && !hammered && !hammers {
		return
	}
	p.start("technical")
	if stroke != "" {
		p.empty(stroke)
	}
	if fingered {
		p.number("fingering", f.Finger)
	}
	if hammered {
		p.text(string(from.From), "", "type", "stop", "number", from.FromNo)
	}
	if hammers {
		p.text(string(to.To), hammerLetters[to.To], "type", "start", "number", to.ToNo)
	}
	p.end()
}

// hammerLetters are the usual letters over legato strokes.
var hammerLetters = map[finger.Stroke]string{finger.HammerOn: "H", finger.PullOff: "P"}

func (p *page) tabNotations(s line.Written) {
	from, to, _ := p.ends(s)
	if s.Note == line.Silence && !s.Opens() && !s.Closes() {
		return
	}
	p.start("notations")
	p.edges("tied", s.TieFrom, s.TieTo)
	p.tuplets(s, "bracket", "no", "show-number", "none")
	p.edges("slur", from != nil && from.Closes, to != nil && to.Opens, "number", "2") // each staff numbers its own
	p.slides(from, to)
	p.shiftSlides(s)
	if s.Note != line.Silence && p.ex.Notes[s.Note].String > 0 {
		p.start("technical")
		p.number("string", p.ex.Notes[s.Note].String)
		p.number("fret", p.ex.Notes[s.Note].Fret)
		p.bends(s)
		p.end()
	}
	p.end()
}

// ends returns what belongs to a sign: the joint at the start of its note and
// the fingering, if the sign is the note's first piece, and the joint at the
// end, if it is the last.
func (p *page) ends(s line.Written) (from, to *joint, fingering *finger.Fingering) {
	if s.Note == line.Silence {
		return nil, nil, nil
	}
	if j := &p.joints[s.Note]; j.From != "" && !s.TieFrom {
		from = j
	}
	if j := &p.joints[s.Note]; j.To != "" && !s.TieTo {
		to = j
	}
	if f := &p.ex.Notes[s.Note].Fingering; f.String > 0 && !s.TieFrom {
		fingering = f
	}
	return from, to, fingering
}

func (p *page) tuplets(s line.Written, attributes ...string) {
	if s.Opens() {
		p.empty("tuplet", append([]string{"type", "start", "number", "1"}, attributes...)...)
	}
	if s.Closes() {
		p.empty("tuplet", "type", "stop", "number", "1")
	}
}

func (p *page) slides(from, to *joint) {
	if from != nil && from.From == finger.Slide {
		p.empty("slide", "type", "stop", "number", from.FromNo, "line-type", "solid")
	}
	if to != nil && to.To == finger.Slide {
		p.empty("slide", "type", "start", "number", to.ToNo, "line-type", "solid")
	}
}
