package line

import "math"

// A landSearch finds the cheapest ways to the targets in two passes. The first goes
// back from the targets, note by note, and finds the price of the cheapest remainder
// from every note and the step that led to it (Bellman's principle). The second goes
// forward from the pattern and always extends the way whose total is cheapest (A*,
// with the first pass as an exact estimate: Hart, Nilsson & Raphael 1968), so that
// complete ways come out in the order of their prices.
//
// Time is counted in slots back from the target: slot 0 is the target, slot 1
// the note before it.
type landSearch struct {
	LandRequest
	value  Beat
	wanted int
	most   int     // pattern notes that may be replaced
	slots  int     // approach notes there may be
	hands  []*hand // for each slot
	low    int     // the lowest key under any hand
	keys   int     // how many keys from there to the highest
	goals  [highestKey + 1]int8
	rest   []float64 // see restAt
}

// noGoal marks a key that is not a target.
const noGoal = -1

// newLandSearch prepares a search; ok is false if nothing can be found.
func newLandSearch(r LandRequest) (s *landSearch, ok bool) {
	s = &landSearch{LandRequest: r, value: r.Rhythm.Value.Length()}
	if len(r.Line) == 0 || len(r.Sections) == 0 || s.value == 0 || r.Rhythm.Meter.Check() != nil {
		return s, false
	}
	s.wanted = min(r.Endings, mostEndings)
	if r.Endings == 0 {
		s.wanted = defaultEndings
	}
	s.most = max(r.Replace, 0)
	if r.Replace == 0 {
		s.most = defaultReplace
	}
	s.most = min(s.most, mostReplace, len(r.Line)-1)
	room := r.At - r.Line[len(r.Line)-1-s.most].End()
	if room < 0 || s.wanted < 1 {
		return s, false
	}
	s.slots = min(mostApproach, int(room/s.value))
	s.layHands()
	return s, s.findGoals()
}

// layHands gives each slot the hand of its section.
func (s *landSearch) layHands() {
	laid := make([]*hand, len(s.Sections))
	s.hands = make([]*hand, s.slots+1)
	for slot := range s.hands {
		at := s.At - Beat(slot)*s.value
		in := len(s.Sections) - 1
		for in > 0 && s.Sections[in].Start > at {
			in--
		}
		if laid[in] == nil {
			base := 0
			for _, before := range s.Sections[:in] {
				base += len(before.Sources)
			}
			laid[in] = newHand(s.Sections[in], base, s.Instrument)
		}
		s.hands[slot] = laid[in]
	}
	low, high := highestKey, lowestKey-1
	for _, h := range laid {
		if h != nil {
			low, high = min(low, h.low), max(high, h.high)
		}
	}
	s.low, s.keys = low, max(0, high-low+1)
}

// findGoals marks the keys under the hand that are targets. If two targets are the
// same key, the first one counts.
func (s *landSearch) findGoals() bool {
	found := false
	for key := range s.goals {
		s.goals[key] = noGoal
		if !s.hands[0].inReach(key) {
			continue
		}
		for i, target := range s.Targets[:min(len(s.Targets), math.MaxInt8)] {
			if target.Name.Class() == key%12 {
				s.goals[key], found = int8(i), true
				break
			}
		}
	}
	return found
}

// steps is the number of steps from a fourth down to a fourth up.
const steps = 2*widest + 1

// restAt returns the least cost of the remainder from a key in a slot of 1 or more,
// by the step that led to it, from a fourth down to a fourth up.
func (s *landSearch) restAt(slot, key int) []float64 {
	i := ((slot-1)*s.keys + key - s.low) * steps
	return s.rest[i : i+steps]
}

// sweepBack fills in restAt.
func (s *landSearch) sweepBack() {
	s.rest = make([]float64, s.slots*s.keys*steps)
	for slot := 1; slot <= s.slots; slot++ {
		for key := s.low; key < s.low+s.keys; key++ {
			s.priceRests(slot, key)
		}
	}
}

func (s *landSearch) priceRests(slot, key int) {
	rests := s.restAt(slot, key)
	for i := range rests {
		rests[i] = math.Inf(1)
	}
	if !s.hands[slot].inReach(key) {
		return
	}
	prices := &moves
	if slot == 1 {
		prices = &homes
	}
	for step := -widest; step <= widest; step++ {
		onward := s.onward(slot, key, step, s.hands[slot].chromatic(key))
		if math.IsInf(onward, 1) {
			continue
		}
		for i := range rests {
			before := i - widest
			rests[i] = min(rests[i], prices[before+wider][step+wider]+onward)
		}
	}
}

// onward returns the least cost beyond a step from a key, without the step itself.
func (s *landSearch) onward(slot, key, step int, fromChromatic bool) float64 {
	arrival, rest := s.arrive(slot, key, step, fromChromatic)
	return arrival + rest
}

// arrive returns the cost of the note at the end of a step, and the least cost of
// the remainder; infinite if there is no such note.
func (s *landSearch) arrive(slot, key, step int, fromChromatic bool) (arrival, rest float64) {
	to := key + step
	if to < s.low || to >= s.low+s.keys {
		return math.Inf(1), 0
	}
	if fromChromatic && step != 1 && step != -1 {
		arrival = costUnresolved
	}
	if slot == 1 {
		if s.goals[to] == noGoal {
			return math.Inf(1), 0
		}
		return arrival, 0
	}
	arrival += s.hands[slot-1].prices[to]
	return arrival, s.restAt(slot-1, to)[step+widest]
}
