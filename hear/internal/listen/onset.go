package listen

import (
	"math"

	"heddle/hear/internal/spectral"
)

// An attack is a peak of the flux that is the highest for some hops on each side.
// It begins where the flux has risen through a share of the peak.
const (
	fluxFloor     = 0.03 // weaker peaks are not attacks
	peakReach     = 4    // hops
	livePeakReach = 2    // hops after it, live
	riseShare     = 0.25
	riseReach     = 10 // hops before the peak, at most
)

// The edge of an attack is sought in the level of its highs.
const (
	highsPerHop = 2     // measurements
	edgeBeforeS = 0.005 // around the rise of the flux
	edgeAfterS  = 0.020
	edgeCalm    = 8     // measurements that give the level before
	edgeLeastDB = 4     // by which the highs must rise to tell anything
	edgeShare   = 0.25  // of the rise, at which a note begins
	edgeLeadS   = 0.006 // by which a string moves before its highs sound (see package hear)
)

// An attack is where a note may begin: a stroke, or a change of period.
type attack struct {
	frame      int
	flux       float64
	riseS      float64 // when the flux begins to rise, at the latest before the onset
	onsetS     float64
	edgeDB     float64 // by which the highs rise
	periodGain float64 // of a change of period without a stroke

	number          int     // of the note it brought, live
	prevMIDI, prevS float64 // the note before, when it was first classified
}

func (t *tracker) peakAt(i int) bool {
	f := t.fluxes.at(i)
	if f < fluxFloor {
		return false
	}
	for k := i - peakReach; k <= i+t.peakReachAhead; k++ {
		if other := t.fluxes.at(k); other > f || other == f && k < i {
			return false
		}
	}
	return true
}

// attackAt places an attack where its flux rose through a share of its peak: a
// slow attack begins long before it is strongest.
func (t *tracker) attackAt(i int) attack {
	top, low := t.fluxes.at(i), t.fluxes.at(i)
	for k := i - riseReach; k < i; k++ {
		low = min(low, t.fluxes.at(k))
	}
	start := low + riseShare*(top-low)
	k := i
	for k > i-riseReach && t.fluxes.at(k-1) > start {
		k--
	}
	rise := float64(k)
	if below := t.fluxes.at(k - 1); below < start {
		rise -= (t.fluxes.at(k) - start) / (t.fluxes.at(k) - below)
	}
	onsetS := (rise+1)*spectral.HopS - spectral.FluxN/2.0/spectral.Rate
	a := attack{frame: i, flux: top, riseS: onsetS}
	a.onsetS, a.edgeDB = t.edge(onsetS)
	return a
}

// edge returns when, near a rise of the flux, the level of the highs rises: the
// flux looks ahead by up to half its window, the more the sharper an attack is.
// Where the highs don't rise, as in a slur, it is the rise of the flux.
func (t *tracker) edge(onsetS float64) (atS, riseDB float64) {
	const perS = highsPerHop / spectral.HopS
	from := max(int((onsetS-edgeBeforeS)*perS), t.highs.pushed-len(t.highs.kept), 0)
	to := min(int((onsetS+edgeAfterS)*perS), t.highs.pushed)
	calm, count := 0.0, 0.0
	for k := max(from-edgeCalm, t.highs.pushed-len(t.highs.kept), 0); k < from; k++ {
		calm += t.highs.at(k)
		count++
	}
	calm /= max(count, 1)
	top := calm
	for k := from; k < to; k++ {
		top = max(top, t.highs.at(k))
	}
	if top-calm < edgeLeastDB {
		return onsetS, top - calm
	}
	begins := t.highsReach(from, to, calm+edgeShare*(top-calm))
	return (begins+0.5)/perS - edgeLeadS, top - calm
}

// highsReach is the measurement, with its fraction, at which the highs first
// reach a level.
func (t *tracker) highsReach(from, to int, level float64) float64 {
	k := from
	for k < to-1 && t.highs.at(k) < level {
		k++
	}
	if k == 0 || k <= t.highs.pushed-len(t.highs.kept) {
		return float64(k)
	}
	before, now := t.highs.at(k-1), t.highs.at(k)
	if before >= level || now < level {
		return float64(k)
	}
	return float64(k) - (now-level)/(now-before)
}

// pushHighs measures the level of the highs in each part of a hop. The difference
// of neighbouring samples lifts them by 6 dB an octave.
func (t *tracker) pushHighs(hop []float32) {
	part := len(hop) / highsPerHop
	for p := range highsPerHop {
		sum := 0.0
		for _, s := range hop[p*part : (p+1)*part] {
			d := float64(s - t.lastSample)
			t.lastSample = s
			sum += d * d
		}
		t.highs.push(10 * math.Log10(sum/float64(part)+1e-12))
	}
}
