package phrase

import (
	"slices"

	"heddle/line"
)

// A dip is a trip outside: notes in the place of some events, and the event that comes
// home.
type dip struct {
	notes  []line.Note
	groups int
	first  int // keys
	last   int
	top    int
	home   int // the event after it
	id     int // of its pitches
	turn   int // which of the given cells it is, or anyTurn
	price  float64
	least  [MostDips + 1]float64 // see leastAfter, by the dips to come
}

// anyTurn is the turn of a dip that is not a given cell.
const anyTurn = -1

// findDips lists the dips after each event, by the rules of the package.
func (r Request) findDips(p *plan) {
	p.dips = make([][]dip, len(p.events))
	for e := range p.events[:len(p.events)-1] {
		if len(r.Cells) > 0 {
			break
		}
		for source := 1; source < len(r.Spans[p.events[e+1].at].Sources); source++ {
			r.groupsAfter(p, e, source)
		}
	}
	for i, cell := range r.Cells {
		r.cellsIn(p, i, cell)
	}
	r.schedule(p)
}

// schedule finds the latest start of the first of so many dips that lie a bar apart:
// after it there is no time for them.
func (r Request) schedule(p *plan) {
	bar := r.Rhythm.Meter.Bar()
	p.latest[0] = r.Land + bar
	for left := 1; left <= r.Dips; left++ {
		p.latest[left] = -1
		for _, after := range p.dips {
			for _, d := range after {
				if d.end()+bar <= p.latest[left-1] || left == 1 {
					p.latest[left] = max(p.latest[left], d.notes[0].Start)
				}
			}
		}
	}
}

// end returns when the dip ends.
func (d *dip) end() line.Beat { return d.notes[len(d.notes)-1].End() }

// groupsAfter lists the dips of one and two groups of a scale after an event.
func (r Request) groupsAfter(p *plan, e, source int) {
	b := r.Spans[p.events[e+1].at]
	s := b.Sources[source]
	for _, rises := range r.directions() {
		for rung := range s.Placement.Places {
			one, reference, ok := group(s, rung, rises, r.Follow)
			if !ok {
				continue
			}
			r.groupDip(p, e, b.Base+source, 1, one)
			if next := reference + sign(rises); next >= 0 && next < len(s.Placement.Places) {
				if two, _, ok := group(s, next, rises, r.Follow); ok {
					r.groupDip(p, e, b.Base+source, 2, slices.Concat(one, two))
				}
			}
		}
	}
}

func sign(rises bool) int {
	if rises {
		return 1
	}
	return -1
}

// directions returns where dips go.
func (r Request) directions() []bool {
	switch r.Direction {
	case line.Down:
		return []bool{false}
	case line.Up:
		return []bool{true}
	}
	return []bool{false, true}
}

// group returns the notes of a group that starts on a rung, without times, and the rung
// that the next one starts beyond (rules 3 and 4 of package line).
func group(s line.Source, rung int, rises bool, follow line.Follow) (notes []line.Note, reference int, ok bool) {
	farthest := 1
	for i := range s.Size {
		step := i + 1
		if s.Order != nil {
			step = s.Order[i]
		}
		farthest = max(farthest, step)
		at := rung + sign(rises)*(step-1)
		if at < 0 || at >= len(s.Placement.Places) {
			return nil, 0, false
		}
		notes = append(notes, line.Note{Pitch: s.Placement.Places[at].Pitch, Step: step})
	}
	reference = rung
	if follow == line.FollowLast {
		reference += sign(rises) * (farthest - 1)
	}
	return notes, reference, true
}

// groupDip adds a dip of group notes in the place of the events after e, if these are
// notes of the phrase's value without a rest.
func (r Request) groupDip(p *plan, e, scale, groups int, played []line.Note) {
	if e+len(played) >= len(p.events)-1 {
		return
	}
	notes := slices.Clone(played)
	for i := range notes {
		at := p.events[e+1+i]
		if at.end-at.start != r.Rhythm.Value.Length() || at.start != p.events[e+i].end && (i > 0 || at.fresh) {
			return
		}
		notes[i].Start, notes[i].Duration, notes[i].Scale = at.start, at.end-at.start, scale
	}
	r.addDip(p, e, e+1+len(notes), dip{notes: notes, turn: anyTurn, groups: groups})
}

// cellsIn adds a cell wherever it fits, in its own rhythm: on any beat, in any octave.
func (r Request) cellsIn(p *plan, number int, cell Cell) {
	first, last := cell[0].Start, cell[len(cell)-1].End()
	for at := first % r.beat(); at+last-first <= r.Land; at += r.beat() {
		before := -1
		home := len(p.events)
		for e, ev := range p.events {
			if ev.start < at {
				before = e
			}
			if ev.start >= at+last-first {
				home = min(home, e)
			}
		}
		if before < 0 || home >= len(p.events) || at-p.events[before].end >= r.beat() {
			continue
		}
		for octave := -10; octave <= 10; octave++ {
			notes := slices.Clone(cell)
			reached := true
			for i := range notes {
				notes[i].Start += at - first
				notes[i].Pitch.Octave += octave
				reached = reached && r.underHand(r.Spans[p.events[before].at], notes[i].Pitch.MIDI())
			}
			if reached {
				r.addDip(p, before, home, dip{notes: notes, turn: number, groups: 1})
			}
		}
	}
}

// underHand reports whether a key lies in the window of the span's placements.
func (r Request) underHand(b Span, key int) bool {
	window := b.Sources[0].Placement.Window
	for _, s := range b.Sources[1:] {
		window.Low, window.High = min(window.Low, s.Placement.Window.Low), max(window.High, s.Placement.Window.High)
	}
	return len(r.Instrument.SpotsIn(key, window)) > 0
}

// addDip adds notes as a dip after an event if the rules allow it.
func (r Request) addDip(p *plan, e, home int, d dip) {
	notes := d.notes
	bar := r.Rhythm.Meter.Bar()
	start, end := notes[0].Start, notes[len(notes)-1].End()
	back := p.events[home]
	switch {
	case start%bar == 0, start < bar, end > line.Beat(r.Bars-1)*bar:
		return // on beat 1, or in the first or last bar
	case home > len(p.events)-3, back.start-end > r.beat():
		return // not two notes before the target, or not home within a beat
	}
	d.first, d.last, d.home = notes[0].Pitch.MIDI(), notes[len(notes)-1].Pitch.MIDI(), home
	scale := r.Spans[p.events[e].at].Sources[0].Scale
	for _, n := range notes {
		d.id = 131*d.id + n.Pitch.MIDI()
		d.top = max(d.top, n.Pitch.MIDI())
		if _, in := scale.Named(n.Pitch.Name.Class()); in {
			d.price += costInHome
		}
	}
	if len(notes) < 3 {
		d.price += costShort
	}
	d.price += costLong * float64(max(0, len(notes)-6))
	if start < 2*bar && r.Bars > 3 {
		d.price += costEarly
	}
	if !back.onBeat {
		d.price += costOffBeat
	}
	p.dips[e] = append(p.dips[e], d)
}
