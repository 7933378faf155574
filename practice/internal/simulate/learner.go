package main

import (
	"math"
	"math/rand/v2"
	"time"

	"heddle/practice"
)

// A learner is a made-up player. What they can do is not what the plan knows:
// the plan sees only how their runs went.
//
// A run is clean with the chance recall × speed × moves × freshness:
//
//   - recall is the FSRS model's forgetting curve, with a stability that is
//     off from the model's by a factor of its own for each unit;
//   - speed is a logistic curve of the tempo around what the hands can do,
//     which grows with each run, less with each further run on one day;
//   - moves is the chance not to trip over the item's weak move, which gets
//     better slowly by playing the line, and ten times faster in a loop around it;
//   - freshness is 1, and falls by 4 % a minute after 50 minutes of playing
//     without a rest; what is learned falls with it.
type learner struct {
	dice    *rand.Rand
	memory  map[practice.Unit]practice.Memory
	strange map[practice.Unit]float64 // by how much stability is off
	hands   map[practice.Unit]float64 // tempo at which half of the runs are clean
	today   map[practice.Unit]int     // runs on this day
	trips   map[int64]float64         // by item: how often its weak move fails
	tired   float64                   // minutes of playing, less the rests
}

// What the learner is like.
const (
	firstTempo   = 70.0 // what the hands can do at first
	bestTempo    = 150.0
	steepness    = 6.0
	learned      = 0.05 // of what is left to learn, by a run near the limit
	sameDay      = 0.75 // of that, for each further run on one day
	noise        = 0.4  // of the logarithm of stability
	tripsAtFirst = 0.3
	tripsLess    = 0.004
	loopLess     = 0.04
	tiring       = 0.04 // for each minute after freshFor without a rest
	freshFor     = 50.0
)

func newLearner(seed uint64) *learner {
	return &learner{
		dice: rand.New(rand.NewPCG(seed, 1)), memory: map[practice.Unit]practice.Memory{}, strange: map[practice.Unit]float64{},
		hands: map[practice.Unit]float64{}, today: map[practice.Unit]int{}, trips: map[int64]float64{},
	}
}

// meet gives a unit its hidden values.
func (l *learner) meet(u practice.Unit) {
	if l.hands[u] == 0 {
		l.hands[u] = firstTempo + 8*l.dice.NormFloat64()
		l.strange[u] = math.Exp(noise * l.dice.NormFloat64())
	}
	if l.trips[u.Item] == 0 {
		l.trips[u.Item] = tripsAtFirst
	}
}

// recall is the chance that the unit is remembered; one never played is worked
// out on the spot half of the time.
func (l *learner) recall(u practice.Unit, at time.Time) float64 {
	m := l.memory[u]
	if m.Reps == 0 {
		return 0.5
	}
	m.Stability *= l.strange[u]
	return m.Recall(at)
}

// chance is how likely a run at a tempo is clean.
func (l *learner) chance(u practice.Unit, tempo float64, at time.Time) float64 {
	speed := 1 / (1 + math.Exp((tempo-l.hands[u])/steepness))
	return l.recall(u, at) * speed * (1 - l.trips[u.Item]) * l.freshness()
}

// freshness is 1 until the player gets tired.
func (l *learner) freshness() float64 { return math.Max(0, math.Min(1, 1-tiring*(l.tired-freshFor))) }

// run plays a unit once.
func (l *learner) run(u practice.Unit, tempo float64, at time.Time, loop bool) practice.Went {
	l.meet(u)
	went := practice.FellApart
	switch draw, chance := l.dice.Float64(), l.chance(u, tempo, at); {
	case draw < chance/3:
		went = practice.Relaxed
	case draw < chance:
		went = practice.Clean
	case draw < chance+(1-chance)*0.7:
		went = practice.Shaky
	}
	near := math.Exp(-math.Pow((tempo-l.hands[u])/30, 2)) // far too slow or too fast teaches little
	l.hands[u] += learned * near * l.freshness() * (bestTempo - l.hands[u]) * math.Pow(sameDay, float64(l.today[u]))
	if l.today[u] == 0 {
		l.memory[u] = l.memory[u].After(at, went)
	}
	l.today[u]++
	less := tripsLess
	if loop {
		less = loopLess
	}
	l.trips[u.Item] *= 1 - less
	return went
}
