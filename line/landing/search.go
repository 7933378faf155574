package landing

import (
	"slices"

	"heddle/line"
)

// A search finds the cheapest ending of every kind with each three last notes, at
// one time. It goes forward from the pattern, note by note, and keeps the cheapest
// way to every note by the step that led to it (Bellman's principle); the kind
// depends on no more than the last four notes. Then it looks at every way to play the
// last two steps.
//
// Time is counted in slots back from the target: slot 0 is the target, slot 1 the
// note before it.
type search struct {
	Request
	goal    Goal
	early   line.Beat // how long before the goal the target starts
	lenient bool      // whether the last notes may be from a superimposed scale
	at      line.Beat // where it starts
	value   line.Beat
	most    int // pattern notes that may be replaced
	slots   int // approach notes there may be
	hands   []*hand
	low     int      // the lowest key under any hand
	keys    int      // how many keys from there to the highest
	chord   [12]bool // pitch classes of the chord
	aims    [12]bool // and of the targets
	passed  [12][steps]float32
	starts  []start
	nodes   []node
	found   []candidate
}

// A node is the cheapest way to an approach note by the step that led to it.
type node struct {
	cost float32
	from int8 // the step before that, up from a fourth down; or ^start if the step is from a note kept
}

// A candidate is the cheapest ending with its kind and last three notes.
type candidate struct {
	cost float32
	kind Kind
	tail tail
	from int // as in node, of the second-last approach note; or ^start if there are not two
}

// A tail is the three last keys of an ending, the target last; those missing are
// none.
type tail [3]int

// before orders candidates: by cost, then by kind, then by their last notes.
func (c *candidate) before(other *candidate) bool {
	switch {
	case c.cost != other.cost:
		return c.cost < other.cost
	case c.kind != other.kind:
		return c.kind < other.kind
	}
	return slices.Compare(c.tail[:], other.tail[:]) < 0
}

// steps is the number of steps from a fourth down to a fourth up.
const steps = 2*widest + 1

func (c *choice) search(goal Goal, early line.Beat, lenient bool) *search {
	r := c.request
	s := &search{Request: r, goal: goal, early: early, lenient: lenient, at: goal.At - early, value: r.Rhythm.Value.Length()}
	s.most = max(r.Replace, 0)
	if r.Replace == 0 {
		s.most = defaultReplace
	}
	s.most = min(s.most, mostReplace, len(r.Line)-1)
	room := s.at - r.Line[len(r.Line)-1-s.most].End()
	if room < 0 {
		s.keys = 0
		return s
	}
	s.slots = min(mostApproach, int(room/s.value))
	for _, class := range goal.Chord {
		s.chord[class%12] = true
	}
	for _, t := range goal.Targets {
		s.aims[t.Name.Class()] = true
	}
	s.layHands(c.hands)
	s.pricePassing()
	s.findStarts()
	return s
}

// layHands gives each slot the hand of its section, laid before or now.
func (s *search) layHands(laid []*hand) {
	s.hands = make([]*hand, s.slots+1)
	low, high := highestKey, lowestKey-1
	for slot := range s.hands {
		in := s.section(s.at - line.Beat(slot)*s.value)
		if slot == 0 {
			in = s.section(s.goal.At)
		}
		if laid[in] == nil {
			base := 0
			for _, before := range s.Sections[:in] {
				base += len(before.Sources)
			}
			laid[in] = newHand(s.Sections[in], base, s.Instrument)
		}
		s.hands[slot] = laid[in]
		low, high = min(low, laid[in].low), max(high, laid[in].high)
	}
	s.low, s.keys = low, max(0, high-low+1)
}

// section returns the section in force at a time.
func (s *search) section(at line.Beat) int {
	in := len(s.Sections) - 1
	for in > 0 && s.Sections[in].Start > at {
		in--
	}
	return in
}

// pricePassing fills in what it costs to step from a pitch class over targets.
func (s *search) pricePassing() {
	for class := range s.passed {
		for step := -widest; step <= widest; step++ {
			for between := min(step, 0) + 1; between < max(step, 0); between++ {
				if s.aims[(class+between+12)%12] {
					s.passed[class][step+widest] += costPassing
				}
			}
		}
	}
}

// node returns the node of a key in a slot from 2 on.
func (s *search) node(slot, key, step int) *node {
	return &s.nodes[((slot-2)*s.keys+key-s.low)*steps+step+widest]
}

// run finds the candidates.
func (s *search) run() {
	if s.keys == 0 {
		return
	}
	s.nodes = make([]node, max(0, s.slots-1)*s.keys*steps)
	for i := range s.nodes {
		s.nodes[i].cost = never
	}
	for slot := s.slots; slot >= 2; slot-- {
		s.leave(slot)
		if slot < s.slots {
			s.goOn(slot)
		}
	}
	for key := s.low; key < s.low+s.keys; key++ {
		if s.aims[key%12] && s.hands[0].inReach(key) {
			s.reach(key)
		}
	}
}

// leave takes the first step from the pattern into a slot.
func (s *search) leave(slot int) {
	for i, st := range s.starts {
		if st.approach != slot {
			continue
		}
		for step := -widest; step <= widest; step++ {
			cost := st.cost + moves[st.step()+wider][step+wider] + s.arrival(slot, st.key, step, st.barred)
			if cost < never {
				if n := s.node(slot, st.key+step, step); cost < n.cost {
					*n = node{cost, int8(^i)}
				}
			}
		}
	}
}

// goOn goes on from every node of the slot before.
func (s *search) goOn(slot int) {
	for from := s.low; from < s.low+s.keys; from++ {
		nodes := s.nodes[((slot-1)*s.keys+from-s.low)*steps:][:steps]
		if !slices.ContainsFunc(nodes, func(n node) bool { return n.cost < never }) {
			continue
		}
		for step := -widest; step <= widest; step++ {
			arrival := s.arrival(slot, from, step, none) + s.unresolved(slot+1, from, step)
			if arrival >= never {
				continue
			}
			to := s.node(slot, from+step, step)
			for before := range nodes {
				if cost := nodes[before].cost + moves[before+1][step+wider] + arrival; cost < to.cost {
					*to = node{cost, int8(before)}
				}
			}
		}
	}
}

// arrival is the price of an approach note in a slot, reached by a step from a key;
// never if it is out of reach, barred, or away from home in the last two slots.
func (s *search) arrival(slot, from, step, barred int) float32 {
	key, h := from+step, s.hands[slot]
	if step == 0 || key == barred || !h.inReach(key) || slot <= 2 && h.away(key) && !s.lenient {
		return never
	}
	price := h.prices[key]
	if slot > usualApproach {
		price += costFurther
	}
	if slot > 2 {
		price += s.passed[from%12][step+widest]
	}
	if s.aims[key%12] {
		price += costPassing
	}
	return price
}

// unresolved is the price of a chromatic approach note that does not move on by a
// semitone.
func (s *search) unresolved(slot, key, step int) float32 {
	if step != 1 && step != -1 && s.hands[slot].chromatic(key) {
		return costUnresolved
	}
	return 0
}

// reach adds the candidates that end on a target.
func (s *search) reach(t int) {
	for last := -lastWidth; last <= lastWidth; last++ {
		y := t - last
		for i, st := range s.starts {
			switch st.approach {
			case 0:
				if st.key == y && st.left && st.leftSoon {
					s.add(len(s.found), st.cost+homes[st.step()+wider][last+wider], s.twoBefore(st), tail{st.before, y, t}, ^i)
				}
			case 1:
				if step := y - st.key; step >= -widest && step <= widest && st.left {
					cost := st.cost + moves[st.step()+wider][step+wider] + s.arrival(1, st.key, step, st.barred)
					cost += homes[step+wider][last+wider] + s.unresolved(1, y, last)
					s.add(len(s.found), cost, st.before, tail{st.key, y, t}, ^i)
				}
			}
		}
		if s.slots < 2 {
			continue
		}
		for step := -widest; step <= widest; step++ {
			if x := y - step; x >= s.low && x < s.low+s.keys {
				s.reachFrom(x, step, last)
			}
		}
	}
}

// reachFrom adds the candidates that end with two steps from the key of slot 2: of
// each kind the cheapest.
func (s *search) reachFrom(x, step, last int) {
	y, t := x+step, x+step+last
	onward := s.arrival(1, x, step, none) + s.unresolved(2, x, step) + homes[step+wider][last+wider] + s.unresolved(1, y, last)
	if onward >= never {
		return
	}
	first := len(s.found)
	for before := -widest; before <= widest; before++ {
		cost := s.node(2, x, before).cost + moves[before+wider][step+wider] + onward
		s.add(first, cost, x-before, tail{x, y, t}, before+widest)
	}
}

// add adds a candidate if it has a kind and no candidate since the given one, all
// with its last notes, has that kind and costs less.
func (s *search) add(since int, cost float32, w int, last tail, from int) {
	if cost >= never {
		return
	}
	kind := Anticipated
	if s.early == 0 {
		var ok bool
		if kind, ok = s.shape(w, last[0], last[1], last[2]); !ok {
			return
		}
	}
	found := candidate{cost, kind, last, from}
	for i := range s.found[since:] {
		if same := &s.found[since+i]; same.kind == kind {
			if cost < same.cost {
				*same = found
			}
			return
		}
	}
	s.found = append(s.found, found)
}
