package hear

import (
	"math"
	"slices"

	"heddle/hear/internal/listen"
)

// The costs of an alignment. One missed note is the unit; a note in another's
// place must cost less than a missed and an extra one together.
const (
	missedCost    = 1.0
	extraCost     = 0.9
	wrongCost     = 1.3
	doubtCost     = 0.8 // for a match with a note that was surely none
	jumpCost      = 2.5 // for going back, or for losing the thread
	skippedCost   = 0.3 // for each note left out by losing the thread
	unstartedCost = 0.5 // for each note before the first one played
	unplayedCost  = 0.4 // for each note after the last one played, up to
	stoppedCost   = 2.5 // this, for a player who stopped
	lateCost      = 0.4 // for being off by one tolerance
	latestCost    = 1.8 // for being off by any time
)

// rivalOdds is by how much a written pitch may be less likely than the pitch that
// was heard, in log odds, and still be taken for it. The odds of playing right
// would allow three or four, but wrong notes must not pass.
const rivalOdds = 1.0

// How far matches reach over notes that are missed or extra without losing the
// thread.
const (
	missedReach = 6
	extraReach  = 4
	doubtReach  = 24 // notes and doubts together
)

// The tolerance of the time between two matched notes: a share of the time, and a
// part that even slow lines have.
const (
	toleranceShare = 0.22
	toleranceS     = 0.025
)

// A written note is what the exercise asks for.
type written struct {
	key      int
	quarters float64 // when it sounds, from the first bar line
}

// An aligner finds the cheapest reading of heard notes as an attempt, or several,
// at the written ones: dynamic programming over pairs of the two (Needleman and
// Wunsch 1970), with the time between pairs in the cost.
type aligner struct {
	written  []written
	heard    []Heard
	tuning   float64 // semitones
	quarterS float64 // seconds in a quarter note, 0 while unknown
	clicked  bool    // time counts from startS, by the click
	startS   float64

	cost []float32 // by heard, then written: of the best reading that ends with this pair
	from []int32   // the pair before it, or fromStart
	// rest[i] is the best reading whose last pair is with written note i, whatever
	// was heard since.
	rest     []float32
	restFrom []int32
}

const fromStart = -1

// A pair says that a heard note was played for a written one.
type pair struct {
	written, heard int
}

func (a *aligner) extra(j int) float64 {
	if a.heard[j].Confidence < listen.Sure {
		return 0
	}
	return extraCost
}

func (a *aligner) right(i, j int) bool {
	_, ok := a.asWritten(i, j)
	return ok
}

// asWritten is heard note j as the written note i, if it may have been that: if it
// has that pitch, or one of its rivals has it and is hardly less likely.
func (a *aligner) asWritten(i, j int) (listen.Rival, bool) {
	h := &a.heard[j]
	at := a.tuning + float64(a.written[i].key)
	own := listen.Rival{MIDI: h.MIDI, LogOdds: listen.LogOdds(h.Confidence)}
	if math.Abs(h.MIDI-at) <= 0.5 {
		return own, true
	}
	for _, r := range h.evidence.Rivals {
		less := rivalOdds
		if math.Abs(math.Abs(r.MIDI-own.MIDI)-12) < listen.SamePitch {
			less = 0 // an octave is the commonest slip that sounds alike
		}
		if math.Abs(r.MIDI-at) <= 0.5 && r.LogOdds >= own.LogOdds-less {
			return r, true
		}
	}
	return own, false
}

// match is the cost of a pair by itself.
func (a *aligner) match(i, j int) float64 {
	h := &a.heard[j]
	cost := 0.0
	if as, ok := a.asWritten(i, j); ok {
		if p := listen.Probability(as.LogOdds); p < listen.Sure {
			cost = doubtCost * (listen.Sure - p) / listen.Sure
		}
	} else {
		if h.Confidence < listen.Sure {
			return math.Inf(1)
		}
		cost = wrongCost
	}
	if a.clicked {
		cost += a.lateness(h.OnsetS-a.startS-a.written[i].quarters*a.quarterS, a.step(i))
	}
	return cost
}

// step is the time from a written note to the next.
func (a *aligner) step(i int) float64 {
	if i+1 < len(a.written) {
		return (a.written[i+1].quarters - a.written[i].quarters) * a.quarterS
	}
	return a.quarterS / 2
}

func (a *aligner) lateness(byS, overS float64) float64 {
	tolerance := toleranceShare*min(overS, 1) + toleranceS
	x := math.Abs(byS) / tolerance
	return min(lateCost*x*x, lateCost*(2*x-1), latestCost)
}

// between is the cost of the time between two pairs.
func (a *aligner) between(i0, j0, i, j int) float64 {
	if a.quarterS == 0 || a.clicked {
		return 0
	}
	want := (a.written[i].quarters - a.written[i0].quarters) * a.quarterS
	return a.lateness(a.heard[j].OnsetS-a.heard[j0].OnsetS-want, want)
}

// align returns the pairs in the order heard, and the cost of the reading.
func (a *aligner) align() ([]pair, float64) {
	n, m := len(a.written), len(a.heard)
	if n == 0 || m == 0 {
		return nil, float64(n) * missedCost
	}
	a.cost, a.from = make([]float32, n*m), make([]int32, n*m)
	a.rest, a.restFrom = make([]float32, n), make([]int32, n)
	for i := range a.rest {
		a.rest[i] = math.MaxFloat32
	}
	extras := 0.0 // cost of all heard so far, if all were extra
	for j := range m {
		back, ahead := a.jumps()
		for i := range n {
			own := a.match(i, j)
			best, from := extras+unstartedCost*float64(i), int32(fromStart)
			if c, f := a.continued(i, j); c < best {
				best, from = c, f
			}
			if a.right(i, j) {
				if c := float64(back[i].cost) + jumpCost; c < best {
					best, from = c, back[i].from
				}
				if c := float64(ahead[i].cost) + jumpCost + skippedCost*float64(i); c < best {
					best, from = c, ahead[i].from
				}
			}
			a.cost[j*n+i], a.from[j*n+i] = float32(min(best+own, math.MaxFloat32)), from
		}
		e := float32(a.extra(j))
		for i := range n {
			a.rest[i] += e
			if c := a.cost[j*n+i]; c < a.rest[i] {
				a.rest[i], a.restFrom[i] = c, int32(j*n+i)
			}
		}
		extras += float64(e)
	}
	return a.read()
}

// continued is the best reading before pair (i, j) that keeps the thread.
func (a *aligner) continued(i, j int) (float64, int32) {
	n := len(a.written)
	best, from := math.Inf(1), int32(fromStart)
	between, sureOnes := 0.0, 0
	for j0 := j - 1; j0 >= max(0, j-doubtReach) && sureOnes <= extraReach; j0-- {
		for i0 := i - 1; i0 >= max(0, i-1-missedReach); i0-- {
			c := float64(a.cost[j0*n+i0]) + between + missedCost*float64(i-1-i0)
			if c >= best {
				continue
			}
			if c += a.between(i0, j0, i, j); c < best {
				best, from = c, int32(j0*n+i0)
			}
		}
		between += a.extra(j0)
		if a.heard[j0].Confidence >= listen.Sure {
			sureOnes++
		}
	}
	return best, from
}

// A jump is the best reading to jump from.
type jump struct {
	cost float32
	from int32
}

// jumps returns, by written note, the best readings that end at or past it, and
// those that end before it, the latter less the cost of the skipped notes so far.
func (a *aligner) jumps() (back, ahead []jump) {
	n := len(a.rest)
	back, ahead = make([]jump, n), make([]jump, n)
	best := jump{math.MaxFloat32, fromStart}
	for i := n - 1; i >= 0; i-- {
		if a.rest[i] < best.cost {
			best = jump{a.rest[i], a.restFrom[i]}
		}
		back[i] = best
	}
	best = jump{math.MaxFloat32, fromStart}
	for i := range n {
		ahead[i] = best
		if c := a.rest[i] - skippedCost*float32(i); a.rest[i] < math.MaxFloat32/2 && c < best.cost {
			best = jump{c, a.restFrom[i]}
		}
	}
	return back, ahead
}

// read walks the best reading back to its start. Notes after the last pair cost
// little, since a player may stop.
func (a *aligner) read() ([]pair, float64) {
	n := len(a.written)
	best, at := math.Inf(1), int32(fromStart)
	for i, c := range a.rest {
		if c := float64(c) + min(unplayedCost*float64(n-1-i), stoppedCost); c < best {
			best, at = c, a.restFrom[i]
		}
	}
	var pairs []pair
	for ; at != fromStart; at = a.from[at] {
		pairs = append(pairs, pair{written: int(at) % n, heard: int(at) / n})
	}
	slices.Reverse(pairs)
	return pairs, best
}
