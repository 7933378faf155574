package weave

import (
	"math"
	"slices"

	"heddle/line"
	"heddle/pitch"
)

// A Request is a line and what is known about it.
type Request struct {
	Notes  []line.Note   // one after another
	Scales []pitch.Scale // home, then others it is known to use; none if unknown
	Chords []pitch.Chord // that it sounds over, if known
}

// A Reading says which scales a line is woven from.
type Reading struct {
	Home     pitch.Scale
	Segments []Segment // without gaps
	Pattern  *Pattern  // nil if no regular pattern explains the line
	Cost     float64
}

// A Segment is a run of notes heard in one scale. From and To are notes counted from 1,
// both included.
type Segment struct {
	From, To int
	Scale    pitch.Scale
	Outside  bool   // whether any of its notes is not in home
	Why      string // in one line
}

// Read returns the cheapest reading of a line and, if there is one that costs nearly the
// same and hears at least one note in another scale, that one too. Without notes it
// returns nothing.
func Read(r Request) []Reading {
	if len(r.Notes) == 0 {
		return nil
	}
	s := newSearch(r, r.candidates(), len(r.Scales) > 0)
	p := newPaths(s)
	p.patterns()
	p.freely()
	readings := []Reading{s.reading(s.best)}
	if s.next.scales != nil && s.next.cost <= s.best.cost+nearlyEqual {
		readings = append(readings, s.reading(s.next))
	}
	return readings
}

// A solution is a reading being compared with others.
type solution struct {
	cost    float64
	scales  []int // of each note, a candidate
	home    int   // of a regular pattern, a candidate
	pattern *Pattern
}

// A search is one call of Read.
type search struct {
	Request
	candidates candidateList
	known      bool      // home is the first candidate
	kinds      []classes // of the candidates, each once
	keys       []int     // of each note
	classes    []int
	between    []classes // what each note skips after the one before
	heard      classes   // all of them
	prices     []float64 // of each candidate by itself
	groups     []group   // see divide
	best, next solution
}

// newSearch prepares a search among candidates; known reports whether the first is home.
func newSearch(r Request, candidates candidateList, known bool) *search {
	s := &search{Request: r, candidates: candidates, known: known, classes: make([]int, len(r.Notes))}
	s.keys = make([]int, len(r.Notes))
	for i, n := range r.Notes {
		s.keys[i], s.classes[i] = n.Pitch.MIDI(), n.Pitch.Name.Class()
		s.heard |= 1 << s.classes[i]
	}
	s.prices = make([]float64, len(s.candidates))
	for c, own := range s.candidates {
		s.prices[c] = s.own(c)
		if !slices.Contains(s.kinds, own.kind) {
			s.kinds = append(s.kinds, own.kind)
		}
	}
	s.between = make([]classes, len(r.Notes))
	for i := 1; i < len(r.Notes); i++ {
		low, high := s.keys[i-1], s.keys[i]
		for key := min(low, high) + 1; key < max(low, high); key++ {
			s.between[i] |= 1 << (key % 12)
		}
	}
	s.best.cost, s.next.cost = math.Inf(1), math.Inf(1)
	return s
}

// offer keeps a solution if it is the best, or the best of those that hear the line
// differently from the best. The scales are copied.
func (s *search) offer(found solution) {
	if found.cost >= s.limit() {
		return
	}
	found.scales = append([]int(nil), found.scales...)
	switch {
	case found.cost >= s.best.cost:
		if s.differ(found, s.best) {
			s.next = found
		}
	case s.best.scales != nil && s.differ(found, s.best):
		s.best, s.next = found, s.best
	default:
		s.best = found
		if s.next.scales != nil && !s.differ(s.next, s.best) {
			s.next = solution{cost: math.Inf(1)}
		}
	}
}

// limit returns the cost at which a solution is of no interest.
func (s *search) limit() float64 { return min(s.next.cost, s.best.cost+nearlyEqual) }

func (s *search) differ(a, b solution) bool {
	for i := range a.scales {
		if s.candidates[a.scales[i]].classes != s.candidates[b.scales[i]].classes {
			return true
		}
	}
	return false
}

// own returns the price of a scale by itself.
func (s *search) own(c int) float64 {
	if s.known && c == 0 {
		return 0
	}
	own := s.candidates[c]
	return own.unfamiliar + costUnheard*float64((own.classes&^s.heard).size())
}

// mixed returns the price of two scales that are not of one kind.
func (s *search) mixed(a, b int) float64 {
	if s.candidates[a].kind != s.candidates[b].kind {
		return costOtherType
	}
	return 0
}
