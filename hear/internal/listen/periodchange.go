package listen

import (
	"math"

	"heddle/hear/internal/spectral"
)

// A slur from one fret to the next, or a soft stroke on a dark string in a live
// room, brings hardly any flux; but the period of the sound changes.
const (
	changeFrames    = 3    // of similarity that are averaged on each side of a change
	changeGap       = 2    // frames between them, whose windows hold both pitches
	changeReach     = 3    // a change is the strongest within so many frames,
	liveChangeReach = 1    // of which live so many after it
	changeFloor     = 0.12 // similarity gained at the new period
	periodLeast     = 0.6  // similarity of a period
	periodShorter   = 0.93 // a shorter period with this share of the best similarity is the period
	changeStretch   = 120  // samples; short periods are compared several at a time
	changeApartS    = 0.035
	changeQuietDB   = -50 // against the loudest, below which a change doesn't count
)

// How long before a change the sound counts as before it, and by how much the
// middle of the averaged frames lags behind the change, measured on slurs.
const (
	changeLeadS = 0.005
	changeLagS  = 0.017
)

// similarityS is the time between two frames of similarity.
const similarityS = similarityHops * spectral.HopS

// A periodChange is by how much a new period became likelier than it was, and
// that period in samples.
type periodChange struct {
	gain, lag float64
}

// changeNow compares the last frames of similarity with those before them.
func (t *tracker) changeNow() periodChange {
	n := t.similarities.pushed
	if n < 2*changeFrames+changeGap {
		return periodChange{}
	}
	t.averageFrames(t.after, n-changeFrames)
	lag := shortestPeriod(t.after)
	if lag == 0 {
		return periodChange{}
	}
	t.averageFrames(t.before, n-2*changeFrames-changeGap)
	at := int(lag*math.Max(1, math.Floor(changeStretch/lag)) + 0.5)
	at = climb(t.after, at)
	return periodChange{gain: t.after[at] - t.before[at], lag: lag}
}

func (t *tracker) averageFrames(dst []float64, from int) {
	clear(dst)
	for k := from; k < from+changeFrames; k++ {
		for i, v := range t.similarities.at(k) {
			dst[i] += v / changeFrames
		}
	}
}

// shortestPeriod is the shortest lag that is nearly as likely a period as any, or
// 0 where the sound has none.
func shortestPeriod(similarity []float64) float64 {
	shortest := int(lagOf(HighestKey + 1))
	best := 0.0
	for _, v := range similarity[shortest:] {
		best = max(best, v)
	}
	if best < periodLeast {
		return 0
	}
	for i := shortest; i+1 < len(similarity); i++ {
		a, b, c := similarity[i-1], similarity[i], similarity[i+1]
		if b >= periodShorter*best && b >= a && b >= c {
			if d := a - 2*b + c; d < 0 {
				return float64(i) + 0.5*(a-c)/d
			}
			return float64(i)
		}
	}
	return 0
}

// climb goes from a lag to the peak next to it.
func climb(similarity []float64, at int) int {
	at = min(max(at, 1), len(similarity)-2)
	for range 4 {
		switch {
		case at+2 < len(similarity) && similarity[at+1] > similarity[at]:
			at++
		case at > 1 && similarity[at-1] > similarity[at]:
			at--
		}
	}
	return at
}

// changed returns the attack of a change that has just turned out to be the
// strongest around it.
func (t *tracker) changed() (attack, bool) {
	ahead := changeReach
	if t.live {
		ahead = liveChangeReach
	}
	k := t.changes.pushed - 1 - ahead
	if k < changeReach {
		return attack{}, false
	}
	c := t.changes.at(k)
	if c.gain < changeFloor {
		return attack{}, false
	}
	for j := k - changeReach; j <= k+ahead; j++ {
		if other := t.changes.at(j).gain; other > c.gain || other == c.gain && j < k {
			return attack{}, false
		}
	}
	onsetS := t.changeOnset(k)
	frame := int(onsetS / spectral.HopS)
	if t.levels.at(frame) < t.loudestDB+changeQuietDB {
		return attack{}, false
	}
	return attack{frame: frame, flux: t.fluxes.at(frame), riseS: onsetS - changeLeadS, onsetS: onsetS, periodGain: c.gain}, true
}

// changeOnset is when the period changed, for the change of frame k.
func (t *tracker) changeOnset(k int) float64 {
	ends := float64(k*similarityHops+1) * spectral.HopS
	between := ends - (changeFrames-1+(changeGap+1)/2.0)*similarityS
	return between - (spectral.CompareN/2+0.5*t.changes.at(k).lag)/spectral.Rate - changeLagS
}

// gainAround is the highest gain of a change near a time.
func (t *tracker) gainAround(onsetS float64) float64 {
	most := 0.0
	for k := max(0, t.changes.pushed-len(t.changes.kept)+1); k < t.changes.pushed; k++ {
		if math.Abs(t.changeOnset(k)-onsetS) < changeApartS {
			most = max(most, t.changes.at(k).gain)
		}
	}
	return most
}
