package hear

import (
	"cmp"
	"math"
	"slices"
)

// recentAttacks is how many attacks are remembered that may end the look at
// one before them.
const recentAttacks = 16

// wait queues an attack by its time. Where a stroke was found, a turn is part
// of it.
func (e *ear) wait(a attack) {
	if a.turn > 0 && slices.ContainsFunc(e.recent, func(b attack) bool { return math.Abs(a.onsetS-b.onsetS) < turnApartS }) {
		return
	}
	if a.onsetS < e.lastOnsetS {
		return
	}
	byTime := func(a, b attack) int { return cmp.Compare(a.onsetS, b.onsetS) }
	e.waits, e.recent = append(e.waits, a), append(e.recent, a)
	slices.SortStableFunc(e.waits, byTime)
	slices.SortStableFunc(e.recent, byTime)
	if over := len(e.recent) - recentAttacks; over > 0 {
		e.recent = e.recent[:copy(e.recent, e.recent[over:])]
	}
}

// judgeAll judges what has waited long enough, in order, and live judges it
// again when as much is heard of it as of a recording.
func (e *ear) judgeAll() {
	for len(e.waits) > 0 {
		a := e.waits[0]
		a.prevMIDI, a.prevS = e.prevMIDI, e.prevS
		m, ok := e.judge(a)
		if !ok {
			break
		}
		e.lastOnsetS = a.onsetS
		e.waits = e.waits[:copy(e.waits, e.waits[1:])]
		if m.lookS == 0 {
			continue
		}
		if a.number = e.report(m); e.live {
			e.revisits = append(e.revisits, revisit{attack: a, odds: m.odds(), againS: e.heardOf(a) + againEveryS})
		}
	}
	e.lookAgain()
	for len(e.revisits) > 0 && e.heardOf(e.revisits[0].attack) >= wholeLookS {
		a := e.revisits[0]
		e.revisits = e.revisits[:copy(e.revisits, e.revisits[1:])]
		if m := e.moment(a.attack, e.look(a.attack, longestLookS), false); m.lookS > 0 {
			e.revise(m, a.number)
		}
	}
}

// A revisit is an attack that is judged again, live.
type revisit struct {
	attack
	odds   float64 // as it was judged last
	againS float64 // how much must be heard of it before it is looked at again
}

// What is doubtful live is looked at again every againEveryS, up to againUntilS
// after its attack, until a note has odds of at least clearOdds: a little more
// sound often tells, and the verdict is due before all is heard.
const (
	againEveryS = 0.010
	againUntilS = 0.100
	clearOdds   = 2.0
)

func (e *ear) lookAgain() {
	for i := range e.revisits {
		v := &e.revisits[i]
		heardS := e.heardOf(v.attack)
		if v.number < 0 || v.odds >= clearOdds || heardS < v.againS || heardS > againUntilS {
			continue
		}
		v.againS = heardS + againEveryS
		if m := e.moment(v.attack, e.look(v.attack, min(heardS, longestLookS)), true); m.lookS > 0 {
			v.odds = m.odds()
			e.revise(m, v.number)
		}
	}
}

// heardOf is how long after an attack there is sound.
func (e *ear) heardOf(a attack) float64 { return float64(e.frames)*hopS - a.onsetS }

// look returns how much of the sound after an attack is looked at: what is
// left until a later attack, or as much as may be.
func (e *ear) look(a attack, longestS float64) float64 {
	for _, b := range e.recent {
		later := b.onsetS - a.onsetS
		if b.flux > rivalLeast && b.flux > rivalShare*a.flux && later > rivalAfterS && later < longestS {
			return max(later, shortestLookS)
		}
	}
	return longestS
}

// judge weighs an attack, once enough is heard after it. A recording is always
// looked at for as long as may be; live, a low note longer than a high one.
func (e *ear) judge(a attack) (m moment, ok bool) {
	heardS := e.heardOf(a)
	if !e.live {
		if heardS < wholeLookS {
			return m, false
		}
		return e.moment(a, e.look(a, longestLookS), false), true
	}
	if heardS < liveWaitS {
		return m, false
	}
	m = e.moment(a, e.look(a, min(heardS, longestLookS)), true)
	due := liveWaitS + 2*lagOf(m.midi())/rate
	return m, m.lookS == 0 || heardS >= due
}

// wholeLookS is after how much sound an attack has been looked at for as long
// as may be.
const wholeLookS = longestLookS + peakReach*hopS
