package hear

import "math"

// A slur from one fret to the next, or a soft stroke on a dark string in a
// live room, brings hardly any flux; but the period of the sound turns.
const (
	turnFrames  = 3    // of likeness that are averaged on each side of a turn
	turnGap     = 2    // frames between, whose windows hold both pitches
	turnReach   = 3    // a turn is the strongest within so many frames,
	liveReach   = 1    // of which live so many after it
	turnFloor   = 0.12 // likeness gained at the new period
	turnLeast   = 0.6  // likeness of the new period, or it is none
	turnShort   = 0.93 // of the best likeness makes a shorter period the period
	turnStretch = 120  // samples; short periods are compared several at a time
	turnApartS  = 0.035
	turnQuietDB = -50 // against the loudest, below which a turn is no matter
)

// likenessS is the time between two frames of likeness.
const likenessS = likenessHops * hopS

// A turning is by how much a new period became likelier than it was, and which
// period that is, in samples.
type turning struct {
	gain, lag float64
}

// turnNow compares the last frames of likeness with those before them.
func (e *ear) turnNow() turning {
	n := e.likes.pushed
	if n < 2*turnFrames+turnGap {
		return turning{}
	}
	e.averageFrames(e.after, n-turnFrames)
	lag := shortestPeriod(e.after)
	if lag == 0 {
		return turning{}
	}
	e.averageFrames(e.before, n-2*turnFrames-turnGap)
	at := int(lag*math.Max(1, math.Floor(turnStretch/lag)) + 0.5)
	at = peakNear(e.after, at)
	return turning{gain: e.after[at] - e.before[at], lag: lag}
}

func (e *ear) averageFrames(dst []float64, from int) {
	clear(dst)
	for k := from; k < from+turnFrames; k++ {
		for i, v := range e.likes.at(k) {
			dst[i] += v / turnFrames
		}
	}
}

// shortestPeriod is the shortest lag that is nearly as likely a period as
// any, or nought where the sound has none.
func shortestPeriod(likeness []float64) float64 {
	shortest := int(lagOf(highestHeard + 1))
	best := 0.0
	for _, v := range likeness[shortest:] {
		best = max(best, v)
	}
	if best < turnLeast {
		return 0
	}
	for i := shortest; i+1 < len(likeness); i++ {
		a, b, c := likeness[i-1], likeness[i], likeness[i+1]
		if b >= turnShort*best && b >= a && b >= c {
			if d := a - 2*b + c; d < 0 {
				return float64(i) + 0.5*(a-c)/d
			}
			return float64(i)
		}
	}
	return 0
}

// peakNear climbs from a lag to the peak beside it.
func peakNear(likeness []float64, at int) int {
	at = min(max(at, 1), len(likeness)-2)
	for range 4 {
		switch {
		case at+2 < len(likeness) && likeness[at+1] > likeness[at]:
			at++
		case at > 1 && likeness[at-1] > likeness[at]:
			at--
		}
	}
	return at
}

// turned returns the attack of a turn that has just been found the strongest
// around it, where no stroke was found.
func (e *ear) turned() (attack, bool) {
	ahead := turnReach
	if e.live {
		ahead = liveReach
	}
	k := e.turns.pushed - 1 - ahead
	if k < turnReach {
		return attack{}, false
	}
	t := e.turns.at(k)
	if t.gain < turnFloor {
		return attack{}, false
	}
	for j := k - turnReach; j <= k+ahead; j++ {
		if other := e.turns.at(j).gain; other > t.gain || other == t.gain && j < k {
			return attack{}, false
		}
	}
	onsetS := e.turnOnset(k)
	frame := int(onsetS / hopS)
	if e.levels.at(frame) < e.loudestDB+turnQuietDB {
		return attack{}, false
	}
	return attack{frame: frame, flux: e.fluxes.at(frame), riseS: onsetS - turnLeadS, onsetS: onsetS, turn: t.gain}, true
}

// How long before a turn the sound counts as before it, and by how much the
// middle of the averaged frames lags behind the turn, measured on slurs.
const (
	turnLeadS  = 0.005
	turnSlackS = 0.017
)

// turnOnset is when the pitch turned, for the turn of frame k.
func (e *ear) turnOnset(k int) float64 {
	ends := float64(k*likenessHops+1) * hopS
	between := ends - (turnFrames-1+(turnGap+1)/2.0)*likenessS
	return between - (correlateN/2+0.5*e.turns.at(k).lag)/rate - turnSlackS
}

// turnAround is the strongest turn near a time.
func (e *ear) turnAround(onsetS float64) float64 {
	most := 0.0
	for k := max(0, e.turns.pushed-len(e.turns.kept)+1); k < e.turns.pushed; k++ {
		if math.Abs(e.turnOnset(k)-onsetS) < turnApartS {
			most = max(most, e.turns.at(k).gain)
		}
	}
	return most
}
