package listen

import (
	"cmp"
	"math"
	"slices"

	"heddle/hear/internal/spectral"
)

// A later attack ends the look at an earlier one when it isn't part of the same
// stroke and has a good share of its flux.
const (
	rivalShare  = 0.3
	rivalLeast  = 0.1
	rivalAfterS = 0.030
)

// recentAttacks is how many attacks are remembered that may end a look.
const recentAttacks = 16

// wait queues an attack by its time. A change of period near a stroke is part of
// the stroke.
func (t *tracker) wait(a attack) {
	if a.periodGain > 0 && slices.ContainsFunc(t.recent, func(b attack) bool { return math.Abs(a.onsetS-b.onsetS) < changeApartS }) {
		return
	}
	if a.onsetS < t.lastOnsetS {
		return
	}
	byTime := func(a, b attack) int { return cmp.Compare(a.onsetS, b.onsetS) }
	t.waiting, t.recent = append(t.waiting, a), append(t.recent, a)
	slices.SortStableFunc(t.waiting, byTime)
	slices.SortStableFunc(t.recent, byTime)
	t.recent = slices.Delete(t.recent, 0, max(0, len(t.recent)-recentAttacks))
}

// A revisit is an attack that is looked at again, live.
type revisit struct {
	attack
	odds   float64 // as it was classified last
	againS float64 // how much must be heard of it before it is looked at again
}

// A doubtful live moment is looked at again every againEveryS, up to againUntilS
// after its attack, until its log odds reach clearOdds: a little more sound often
// tells, and the verdict is due before all is heard.
const (
	againEveryS = 0.010
	againUntilS = 0.100
	clearOdds   = 2.0
)

// wholeLookS is after how much sound an attack is looked at for the longest time.
const wholeLookS = longestLookS + peakReach*spectral.HopS

// lookAtAll reports what has waited long enough, in order, and live revises it
// when as much was heard of it as in a recording.
func (t *tracker) lookAtAll() {
	for len(t.waiting) > 0 {
		a := t.waiting[0]
		a.prevMIDI, a.prevS = t.prevMIDI, t.prevS
		m, ok := t.lookAt(a)
		if !ok {
			break
		}
		t.lastOnsetS = a.onsetS
		t.waiting = slices.Delete(t.waiting, 0, 1)
		if m.lookS == 0 {
			continue
		}
		if a.number = t.report(m); t.live {
			t.revisits = append(t.revisits, revisit{attack: a, odds: m.odds(), againS: t.heardOf(a) + againEveryS})
		}
	}
	t.lookAgain()
	for len(t.revisits) > 0 && t.heardOf(t.revisits[0].attack) >= wholeLookS {
		a := t.revisits[0]
		t.revisits = slices.Delete(t.revisits, 0, 1)
		if m := t.moment(a.attack, t.look(a.attack, longestLookS), false); m.lookS > 0 {
			t.revise(m, a.number)
		}
	}
}

func (t *tracker) lookAgain() {
	for i := range t.revisits {
		v := &t.revisits[i]
		heardS := t.heardOf(v.attack)
		if v.number < 0 || v.odds >= clearOdds || heardS < v.againS || heardS > againUntilS {
			continue
		}
		v.againS = heardS + againEveryS
		if m := t.moment(v.attack, t.look(v.attack, min(heardS, longestLookS)), true); m.lookS > 0 {
			v.odds = m.odds()
			t.revise(m, v.number)
		}
	}
}

// lookAt looks at an attack once enough is heard after it. In a recording it
// always waits for the longest look; live, longer for a low note than for a high
// one.
func (t *tracker) lookAt(a attack) (m Moment, ok bool) {
	heardS := t.heardOf(a)
	if !t.live {
		if heardS < wholeLookS {
			return m, false
		}
		return t.moment(a, t.look(a, longestLookS), false), true
	}
	if heardS < liveWaitS {
		return m, false
	}
	m = t.moment(a, t.look(a, min(heardS, longestLookS)), true)
	due := liveWaitS + 2*lagOf(m.best().MIDI)/spectral.Rate
	return m, m.lookS == 0 || heardS >= due
}

// heardOf is how long after an attack there is sound.
func (t *tracker) heardOf(a attack) float64 { return float64(t.frames)*spectral.HopS - a.onsetS }

// look returns how much of the sound after an attack is looked at: until a later
// attack, or the longest.
func (t *tracker) look(a attack, longestS float64) float64 {
	for _, b := range t.recent {
		later := b.onsetS - a.onsetS
		if b.flux > rivalLeast && b.flux > rivalShare*a.flux && later > rivalAfterS && later < longestS {
			return max(later, shortestLookS)
		}
	}
	return longestS
}
