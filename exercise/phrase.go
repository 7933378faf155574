package exercise

import (
	"cmp"
	"slices"
	"strconv"

	"heddle/line"
	"heddle/phrase"
	"heddle/pitch"
)

// The values of form: what the notes of a spec are.
const (
	lineForm   = "line"
	phraseForm = "phrase"
)

const (
	// NoDips is the value of Dips for a phrase without a trip outside.
	NoDips = -1

	// phraseBars is how many bars a phrase has by default, its landing included.
	phraseBars = 4

	// phraseLand is what a phrase lands on by default: whichever is cheapest.
	phraseLand = "root,third,fifth"
)

// readForm reads what only a phrase has, and what a phrase does not have. Fields of the
// other form are set to their defaults, and a remark says so where that loses something.
func (p *plan) readForm() error {
	s := &p.spec
	s.Form = cmp.Or(s.Form, lineForm)
	p.phrased = s.Form == phraseForm
	if !p.phrased && s.Form != lineForm {
		return &pitch.InputError{What: "form", Value: s.Form, Want: "line or phrase", Nearest: pitch.Nearest(s.Form, []string{"line", "phrase"})}
	}
	if !p.phrased {
		p.drop("dips", s.Dips != 0 && s.Dips != 1)
		p.drop("busy", s.Busy != "" && s.Busy != string(phrase.Medium))
		p.drop("choice", s.Choice > 1)
		p.drop("cell", len(s.Cell) > 0)
		s.Dips, s.Busy, s.Choice, s.Cell = 1, string(phrase.Medium), 1, nil
		return nil
	}
	p.drop("start", s.Start != "")
	p.drop("pickup", s.Pickup > 0)
	p.drop("gap", s.Gap > 0)
	p.drop("ending", s.Ending > 1)
	s.Start, s.Pickup, s.Gap, s.Ending = "", 0, 0, 1
	p.rhythm.Pickup, p.rhythm.Gap = 0, 0
	return p.readPhrase()
}

// drop adds a remark about a field that the form does not have.
func (p *plan) drop(field string, given bool) {
	if given {
		p.dropped = append(p.dropped, field+" left out: a "+p.spec.Form+" has none")
	}
}

// readPhrase reads the fields of a phrase.
func (p *plan) readPhrase() (err error) {
	s := &p.spec
	if p.busy, err = phrase.ParseBusy(cmp.Or(s.Busy, string(phrase.Medium))); err != nil {
		return err
	}
	s.Busy = string(p.busy)
	or(&s.Choice, 1)
	or(&s.Bars, phraseBars)
	if s.Bars < phrase.FewestBars || s.Bars > phrase.MostBars {
		return &pitch.InputError{What: "bars", Value: strconv.Itoa(s.Bars), Want: "2 to 12 bars for a phrase"}
	}
	if len(s.Cell) > maxCells {
		return &pitch.InputError{What: "cell", Value: strconv.Itoa(len(s.Cell)) + " cells", Want: "at most " + strconv.Itoa(maxCells)}
	}
	for i, text := range s.Cell {
		cell, canonical, err := p.readCell(text)
		if err != nil {
			return err
		}
		p.cells = append(p.cells, cell)
		s.Cell = slices.Clone(s.Cell)
		s.Cell[i] = canonical
	}
	or(&s.Dips, max(1, len(p.cells)))
	if len(p.spans[0].scales) == 1 && len(p.cells) == 0 && s.Dips > 0 {
		if s.Dips > 1 {
			p.dropped = append(p.dropped, "no dips: there is no scale laid over home")
		}
		s.Dips = NoDips
	}
	return phrase.CheckRhythm(p.rhythm, s.Bars)
}

// The fewest and most notes of a cell: one is not a figure, and more are a line.
const (
	fewestInCell = 2
	mostInCell   = 12
)

// readCell reads a cell, a spec as a query, and moves it from its home to that of the
// phrase.
func (p *plan) readCell(text string) (phrase.Cell, string, error) {
	spec, err := ParseQuery(text)
	if err != nil || spec.Home == "" {
		return nil, "", &pitch.InputError{What: "cell", Value: text, Want: "a line that is cut, as in its address, such as home=G+minor+pentatonic&superimpose=semitone+up&cut=3-6"}
	}
	if spec.Form == phraseForm && len(spec.Cell) > 0 {
		return nil, "", &pitch.InputError{What: "cell", Value: text, Want: "a cell that has no cells itself"}
	}
	ex, err := Build(spec)
	if err != nil {
		return nil, "", named("cell", err)
	}
	if n := len(ex.Notes); n < fewestInCell || n > mostInCell {
		return nil, "", &pitch.InputError{What: "cell", Value: text, Want: "2 to 12 notes; this has " + strconv.Itoa(n)}
	}
	away := pitch.Between(ex.Scales[0].Root, p.spans[0].scales[0].Root)
	cell := make(phrase.Cell, len(ex.Notes))
	for i, n := range ex.Notes {
		cell[i] = n.Note
		cell[i].Pitch = pitch.Named(away.From(n.Pitch.Name), n.Pitch.MIDI()+away.Semitones)
	}
	return cell, spec.Query(), nil
}

// buildPhrase builds the phrase that the spec asks for.
func (p *plan) buildPhrase(scales []Scale) (*Exercise, error) {
	found := phrase.Find(p.phraseRequest(), p.spec.Choice)
	switch s := &p.spec; {
	case len(found) == 0 && s.Dips > 0:
		return nil, &pitch.InputError{What: "dips", Value: strconv.Itoa(s.Dips), Want: "as many as these bars, groups and places have room for; try fewer, more bars, or groups of 3"}
	case len(found) == 0:
		return nil, &pitch.InputError{What: "land", Value: s.Land, Want: "a degree that a phrase can land on here"}
	case len(found) < s.Choice:
		return nil, &pitch.InputError{What: "choice", Value: strconv.Itoa(s.Choice), Want: "1 to " + strconv.Itoa(len(found)) + ", as many as differ enough"}
	}
	notes := found[p.spec.Choice-1].Notes
	for i := range notes {
		notes[i].Scale = p.scaleAt(notes[i])
	}
	ex := p.exercise(scales)
	ex.Cycle = line.Cycle{}
	ex.setChords(p, line.Beat(p.spec.Bars)*p.rhythm.Meter.Bar())
	if err := ex.setNotes(p, notes, nil); err != nil {
		return nil, err
	}
	ex.Pattern = len(notes) - 1
	return ex, ex.cutNotes(p)
}

// scaleAt returns the scale of a note of a phrase in the exercise.
func (p *plan) scaleAt(n line.Note) int {
	if n.Scale == line.Chromatic {
		return line.Chromatic
	}
	return p.scaleOf[n.Scale]
}

// phraseRequest returns what to search for.
func (p *plan) phraseRequest() phrase.Request {
	bar := p.rhythm.Meter.Bar()
	r := phrase.Request{
		Land: line.Beat(p.spec.Bars-1)*bar + line.Beat((p.spec.LandBeat-1)*float64(p.rhythm.Meter.Beat())),
		Bars: p.spec.Bars, Rhythm: p.rhythm, Busy: p.busy, Dips: max(0, p.spec.Dips), Direction: p.direction, Follow: p.follow, Instrument: p.instrument,
	}
	section, base := 0, 0
	for cycle := line.Beat(0); cycle < line.Beat(p.spec.Bars)*bar; cycle += p.cycle {
		for _, s := range p.spans {
			for section+1 < len(p.placed) && p.placed[section+1].Start <= cycle+s.start {
				base += len(p.placed[section].Sources)
				section++
			}
			r.Spans = append(r.Spans, phrase.Span{Start: cycle + s.start, Chord: s.chord, Sources: p.placed[section].Sources, Base: base})
		}
	}
	chord := r.Spans[r.SpanAt(r.Land)].Chord
	for _, t := range p.targets {
		r.Targets = append(r.Targets, chord.Target(t.degree))
	}
	for _, cell := range p.cells {
		r.Cells = append(r.Cells, p.scalesOf(cell, r.Spans[0]))
	}
	return r
}

// scalesOf gives the notes of a cell the scales of the phrase that have them.
func (p *plan) scalesOf(cell phrase.Cell, b phrase.Span) phrase.Cell {
	cell = slices.Clone(cell)
	for i, n := range cell {
		cell[i].Scale = line.Chromatic
		for k := len(b.Sources) - 1; k >= 0; k-- {
			if name, ok := b.Sources[k].Scale.Named(n.Pitch.Name.Class()); ok {
				cell[i].Scale = b.Base + k
				cell[i].Pitch = pitch.Named(name, n.Pitch.MIDI())
			}
		}
	}
	return cell
}

// phrase says what kind of phrase it is.
func (w *sentence) phrase() {
	p := w.plan
	s := &p.spec
	w.over()
	w.say(", play ")
	w.choice("form", s.Form)
	w.say(" in ")
	w.field("home", p.scaleNames(0))
	w.say(", ")
	w.choice("busy", s.Busy)
	dips := max(0, s.Dips)
	w.say(", with ")
	w.field("dips", countWord(dips))
	w.say(plural(dips, " dip"))
	switch {
	case len(p.cells) > 0:
		w.say(" of ")
		w.field("cell", countWord(len(p.cells))+plural(len(p.cells), " cell"))
	case dips > 0:
		for i := range p.spans[0].scales[1:] {
			w.say(joint(i, len(p.spans[0].scales)-1, " into ", " or "))
			w.superimposed(i)
			w.say(", ")
			w.nth("groups", countWord(p.sizes[i+1]), i+1)
			w.say(plural(p.sizes[i+1], " note") + " to a group")
		}
		w.say(", ")
		w.choice("direction", s.Direction)
	}
	if s.Choice > 1 {
		w.say(" (choice ")
		w.field("choice", strconv.Itoa(s.Choice))
		w.say(")")
	}
}
