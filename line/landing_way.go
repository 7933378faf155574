package line

import (
	"container/heap"
	"math"

	"heddle/pitch"
)

// A way leads to a target, or is the beginning of one that does.
type way struct {
	price    float64 // the least total
	spent    float64 // the price so far
	slot     int     // the slot of its last note; that of a kept note is approach+1
	key      int     // the key of its last note
	step     int     // the step to it, within wider
	from     *way    // what it continues; nil at the pattern
	gives    int     // pattern notes replaced
	approach int     // approach notes in all
	order    int     // in which it was found
}

// cheapest returns the wanted number of ways, cheapest first. In a tie, the way that
// keeps more of the pattern comes first, then the one found first.
func (s *landSearch) cheapest() []*way {
	s.sweepBack()
	open := &ways{}
	found := 0
	push := func(w *way) {
		if !math.IsInf(w.price, 1) {
			w.order = found
			found++
			heap.Push(open, w)
		}
	}
	for gives := 0; gives <= s.most; gives++ {
		for approach := 0; approach <= s.slots; approach++ {
			if w, ok := s.begin(gives, approach); ok {
				push(w)
			}
		}
	}
	var home []*way
	for open.Len() > 0 && len(home) < s.wanted {
		w := heap.Pop(open).(*way)
		if w.slot == 0 {
			home = append(home, w)
			continue
		}
		for step := -widest; step <= widest; step++ {
			push(s.extend(w, step))
		}
	}
	return home
}

// begin returns the way that ends at the pattern, with a number of notes to replace
// and a number of approach notes to come.
func (s *landSearch) begin(gives, approach int) (*way, bool) {
	last := len(s.Line) - 1 - gives
	kept := s.Line[last]
	rest := s.At - Beat(approach)*s.value - kept.End()
	if rest < 0 || rest > 0 && approach == 0 || rest >= s.value && gives > 0 {
		return nil, false
	}
	w := &way{slot: approach + 1, key: kept.Pitch.MIDI(), gives: gives, approach: approach}
	if last > 0 {
		step := w.key - s.Line[last-1].Pitch.MIDI()
		w.step = max(-wider, min(wider, step))
	}
	w.spent = float64(gives)*costReplaced + priceRest(rest)
	w.price = math.Inf(1)
	for step := -widest; step <= widest; step++ {
		w.price = min(w.price, s.extend(w, step).price)
	}
	return w, true
}

// extend returns the way with one more step. Its price is infinite if it leads
// nowhere.
func (s *landSearch) extend(w *way, step int) *way {
	next := &way{slot: w.slot - 1, key: w.key + step, step: step, from: w, gives: w.gives, approach: w.approach}
	if w.from == nil && s.keeps(w, next.key) {
		next.price = math.Inf(1)
		return next
	}
	prices := &moves
	if w.slot == 1 {
		prices = &homes
	}
	fromChromatic := w.from != nil && s.hands[w.slot].chromatic(w.key)
	arrival, rest := s.arrive(w.slot, w.key, step, fromChromatic)
	next.spent = w.spent + prices[w.step+wider][step+wider] + arrival
	next.price = next.spent + rest
	return next
}

// keeps reports whether an approach that begins on the key plays the first note
// that it replaces, and so is the same as another ending.
func (s *landSearch) keeps(w *way, key int) bool {
	if w.gives == 0 || w.approach == 0 {
		return false
	}
	first := s.Line[len(s.Line)-w.gives]
	return first.Start == s.At-Beat(w.approach)*s.value && first.Pitch.MIDI() == key
}

// ending returns a way as notes.
func (s *landSearch) ending(w *way) Ending {
	target := s.Targets[s.goals[w.key]]
	e := Ending{Replaced: w.gives, Target: target.Degree, Cost: w.price, Notes: make([]Note, w.approach+1)}
	group := s.Line[len(s.Line)-1-w.gives].Group + 1
	goal := pitch.Named(target.Name, w.key)
	next := goal
	for at := w; at.from != nil; at = at.from {
		h, i := s.hands[at.slot], w.approach-at.slot
		n := Note{Group: group, Step: i + 1, Role: LandingRole, Scale: h.scales[at.key],
			Start: s.At - Beat(at.slot)*s.value, Duration: s.value}
		switch {
		case at.slot == 0:
			n.Pitch, n.Scale = goal, h.scaleCalling(target.Name)
			n.Duration = s.lasting()
		case n.Scale == Chromatic:
			n.Pitch = leading(at.key, next)
		default:
			n.Pitch = pitch.Named(h.names[at.key], at.key)
		}
		next = n.Pitch
		e.Notes[i] = n
	}
	return e
}

// lasting returns how long the target lasts: to the end of its bar, and at least a
// quarter.
func (s *landSearch) lasting() Beat {
	bar := s.Rhythm.Meter.Bar()
	return max(Quarter, bar-(s.At-FloorDiv(s.At, bar)*bar))
}
