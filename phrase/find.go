package phrase

import (
	"cmp"
	"container/heap"
	"math"

	"heddle/line"
	"heddle/pitch"
)

// comesHome reports whether a tone is a home chord tone.
func (t tone) comesHome() bool { return t.role == pitch.ChordTone && t.scale != line.Chromatic }

// A beginning is the first notes of a phrase.
type beginning struct {
	price  float64 // the least total
	spent  float64
	plan   int
	event  int // of its last note
	tone   int
	before int       // the step to it
	top    int       // the highest key so far
	left   int       // dips to come
	free   line.Beat // when the next dip may start
	dips   int       // the id of the first dip, 0 for none
	dip    *dip      // the dip before its last note, if it comes home from one
	from   *beginning
	order  int
}

// beginnings is a heap, the cheapest on top; of equals, the longest, then the first found.
type beginnings []*beginning

func (h beginnings) Len() int      { return len(h) }
func (h beginnings) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *beginnings) Push(x any)   { *h = append(*h, x.(*beginning)) }
func (h *beginnings) Pop() any {
	last := len(*h) - 1
	b := (*h)[last]
	*h = (*h)[:last]
	return b
}

// Less is the order of the heap.
func (h beginnings) Less(i, j int) bool {
	a, b := h[i], h[j]
	switch {
	case a.price != b.price:
		return a.price < b.price
	case a.event != b.event:
		return a.event > b.event
	}
	return a.order < b.order
}

// different is the least share of its notes in which a phrase differs from another one
// that is offered.
const different = 0.3

// mostTried bounds the work: how many beginnings are tried. Only long phrases with
// several dips come near it. mostListed bounds the dips that are listed: rhythms past it
// are left out. Only long phrases with several scales of many notes come near it.
const (
	mostTried  = 400_000
	mostListed = 100_000
)

// Find returns up to count phrases, best first. Each is the cheapest that has neither the
// rhythm nor the first dip of a better one; one that differs in less than three in ten of its
// notes from a better one, by edit distance over pitch and start, is left out. There are
// none if the rules can't be kept.
func Find(r Request, count int) []Phrase {
	if r.Bars < FewestBars || len(r.Spans) == 0 || CheckRhythm(r.Rhythm, r.Bars) != nil {
		return nil
	}
	s := &search{Request: r, plans: r.plans(), seen: map[state]bool{}}
	s.begin()
	var found []Phrase
	done, used := make([]bool, len(s.plans)), map[int]bool{}
	for s.open.Len() > 0 && len(found) < count && s.found < mostTried {
		b := heap.Pop(&s.open).(*beginning)
		p := s.plans[b.plan]
		switch {
		case done[b.plan] || used[b.dips]:
		case b.event == p.last():
			if one := s.phrase(b); differs(one, found) {
				found = append(found, one)
				done[b.plan] = true
				used[b.dips] = b.dips != 0
			}
		default:
			s.extend(b)
		}
	}
	return found
}

// A search is one call of Find.
type search struct {
	Request
	plans []*plan
	open  beginnings
	found int
	seen  map[state]bool
}

// A state is what the rest of a phrase depends on.
type state struct {
	plan, event, tone, before, top, left int
	free                                 line.Beat
	dips                                 int // the id of the first
}

// begin puts the first note of every rhythm on the heap.
func (s *search) begin() {
	listed := 0
	for i, p := range s.plans {
		if listed > mostListed {
			return
		}
		s.findDips(p)
		for _, after := range p.dips {
			listed += len(after)
		}
		p.sweepBack(s.Dips, s.Rhythm.Meter.Bar())
		for tone, t := range p.events[0].tones {
			s.push(&beginning{spent: p.price + p.events[0].prices[tone], plan: i, tone: tone, before: noStep, top: t.key, left: s.Dips})
		}
	}
}

// push puts a beginning on the heap, unless it leads nowhere.
func (s *search) push(b *beginning) {
	p := s.plans[b.plan]
	b.price = b.spent + p.rest[p.restAt(b.event, b.tone, b.before, b.left)]
	if math.IsInf(b.price, 1) || b.left > 0 && p.latest[b.left] < b.free {
		return
	}
	b.order = s.found
	s.found++
	heap.Push(&s.open, b)
}

// extend pushes all beginnings with one more note, or with a dip and the note after it.
func (s *search) extend(b *beginning) {
	at := state{b.plan, b.event, b.tone, b.before, b.top, b.left, b.free, b.dips}
	if s.seen[at] {
		return
	}
	s.seen[at] = true
	p := s.plans[b.plan]
	key := p.events[b.event].tones[b.tone].key
	for i, t := range p.events[b.event+1].tones {
		step := t.key - key
		if t.key == b.top || step < -widest || step > widest {
			continue
		}
		s.push(&beginning{spent: b.spent + p.arrive(b.event+1, i, b.before, step), plan: b.plan, event: b.event + 1, tone: i,
			before: step + widest, top: max(b.top, t.key), left: b.left, free: b.free, dips: b.dips, from: b})
	}
	if b.left == 0 {
		return
	}
	for i := range p.dips[b.event] {
		if d := &p.dips[b.event][i]; s.allows(b, d) {
			s.leave(b, d, b.spent+p.enter(d, key, b.before))
		}
	}
}

// allows reports whether a dip may come next: a bar after the one before, in its turn,
// and without the highest note so far.
func (s *search) allows(b *beginning, d *dip) bool {
	if d.notes[0].Start < b.free || d.turn != anyTurn && d.turn != (s.Dips-b.left)%len(s.Cells) {
		return false
	}
	for _, n := range d.notes {
		if n.Pitch.MIDI() == b.top {
			return false
		}
	}
	return true
}

// leave pushes the ways home from a dip.
func (s *search) leave(b *beginning, d *dip, spent float64) {
	p := s.plans[b.plan]
	top := max(b.top, d.top)
	for i, t := range p.events[d.home].tones {
		if t.key == top || math.IsInf(p.leave(d, i), 1) {
			continue
		}
		free := d.end() + s.Rhythm.Meter.Bar()
		s.push(&beginning{spent: spent + p.leave(d, i), plan: b.plan, event: d.home, tone: i, before: t.key - d.last + widest,
			top: max(top, t.key), left: b.left - 1, free: free, dips: cmp.Or(b.dips, d.id), dip: d, from: b})
	}
}

// phrase writes a complete beginning as notes.
func (s *search) phrase(b *beginning) Phrase {
	one := Phrase{Cost: b.spent}
	var way []*beginning
	for at := b; at != nil; at = at.from {
		way = append(way, at)
	}
	p := s.plans[b.plan]
	w := writer{}
	for i := len(way) - 1; i >= 0; i-- {
		at := way[i]
		if at.dip != nil {
			w.dip(at.dip)
		}
		e := p.events[at.event]
		t := e.tones[at.tone]
		n := line.Note{Pitch: pitch.Named(t.name, t.key), Scale: t.scale, Start: e.start, Duration: e.end - e.start, Role: line.PatternRole}
		if at.event == p.last() {
			n.Role = line.LandingRole
			for _, target := range s.Targets {
				if target.Class() == t.name.Class() {
					n.Pitch = pitch.Named(target, t.key)
				}
			}
		}
		w.add(n, e.fresh || at.dip != nil || n.Role == line.LandingRole)
	}
	one.Notes = w.notes
	return one
}

// A writer numbers groups and steps.
type writer struct{ notes []line.Note }

// add appends a note, in a new group if it begins one.
func (w *writer) add(n line.Note, begins bool) {
	n.Group, n.Step = 0, 1
	if last := len(w.notes) - 1; last >= 0 {
		n.Group, n.Step = w.notes[last].Group, w.notes[last].Step+1
		if begins {
			n.Group, n.Step = n.Group+1, 1
		}
		w.notes[last].Duration = min(w.notes[last].Duration, n.Start-w.notes[last].Start)
	}
	w.notes = append(w.notes, n)
}

// dip appends the notes of a dip, each of its groups a group.
func (w *writer) dip(d *dip) {
	for i, n := range d.notes {
		step := n.Step
		n.Role = line.PatternRole
		w.add(n, i == 0 || d.turn == anyTurn && i == len(d.notes)/2 && d.groups == 2)
		if d.turn == anyTurn {
			w.notes[len(w.notes)-1].Step = step
		}
	}
}

// differs reports whether a phrase differs enough from all others.
func differs(one Phrase, others []Phrase) bool {
	for _, other := range others {
		if Difference(one.Notes, other.Notes) < different {
			return false
		}
	}
	return true
}

// Difference returns how much two lines differ, from 0 to 1: the edit distance over pitch
// and start, as a share of the longer one's notes (Levenshtein 1966).
func Difference(a, b []line.Note) float64 {
	if len(a) == 0 && len(b) == 0 {
		return 0
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range b {
			change := diagonal
			if x.Start != y.Start || x.Pitch.MIDI() != y.Pitch.MIDI() {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return float64(row[len(b)]) / float64(max(len(a), len(b)))
}
