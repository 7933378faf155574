package hear

import "math"

// An attack is a peak of the flux that is the strongest for some hops on each
// side. It begins where the flux has risen through a part of the peak.
const (
	fluxFloor     = 0.03 // weaker peaks are no attacks
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
	edgeCalm    = 8     // measurements before, that tell what was
	edgeLeastDB = 4     // by which the highs rise, or they tell nothing
	edgeShare   = 0.25  // of the rise, at which a note begins
	edgeLeadS   = 0.006 // by which a string moves before its highs are there, and a sound font is told to play
)

// An attack is a peak of the flux.
type attack struct {
	frame  int
	flux   float64
	riseS  float64 // when the flux begins to rise, at the latest before the onset
	onsetS float64
	edgeDB float64 // by which the highs rise
	turn   float64 // of the pitch, where there was no stroke

	number          int     // of the note it brought, live
	prevMIDI, prevS float64 // the note before, when it was first judged
}

func (e *ear) peakAt(i int) bool {
	f := e.fluxes.at(i)
	if f < fluxFloor {
		return false
	}
	for k := i - peakReach; k <= i+e.reachAhead; k++ {
		if other := e.fluxes.at(k); other > f || other == f && k < i {
			return false
		}
	}
	return true
}

// attackAt places an attack where its flux rose through a part of its peak:
// a slow attack begins long before it is strongest.
func (e *ear) attackAt(i int) attack {
	top, low := e.fluxes.at(i), e.fluxes.at(i)
	for k := i - riseReach; k < i; k++ {
		low = min(low, e.fluxes.at(k))
	}
	start := low + riseShare*(top-low)
	k := i
	for k > i-riseReach && e.fluxes.at(k-1) > start {
		k--
	}
	rise := float64(k)
	if below := e.fluxes.at(k - 1); below < start {
		rise -= (e.fluxes.at(k) - start) / (e.fluxes.at(k) - below)
	}
	onsetS := (rise+1)*hopS - fluxN/2.0/rate
	a := attack{frame: i, flux: top, riseS: onsetS}
	a.onsetS, a.edgeDB = e.edge(onsetS)
	return a
}

// edge returns when, near a rise of the flux, the level of the highs rises:
// the flux sees ahead by up to half its window, the more the sharper an attack
// is. Where the highs don't rise, as in a slur, the flux is believed.
func (e *ear) edge(onsetS float64) (atS, riseDB float64) {
	const perS = highsPerHop / hopS
	from := max(int((onsetS-edgeBeforeS)*perS), e.highs.pushed-len(e.highs.kept), 0)
	to := min(int((onsetS+edgeAfterS)*perS), e.highs.pushed)
	calm, count := 0.0, 0.0
	for k := max(from-edgeCalm, e.highs.pushed-len(e.highs.kept), 0); k < from; k++ {
		calm += e.highs.at(k)
		count++
	}
	calm /= max(count, 1)
	top := calm
	for k := from; k < to; k++ {
		top = max(top, e.highs.at(k))
	}
	if top-calm < edgeLeastDB {
		return onsetS, top - calm
	}
	begins := e.highsReach(from, to, calm+edgeShare*(top-calm))
	return (begins+0.5)/perS - edgeLeadS, top - calm
}

// highsReach is the measurement, with its fraction, at which the highs first
// reach a level.
func (e *ear) highsReach(from, to int, level float64) float64 {
	k := from
	for k < to-1 && e.highs.at(k) < level {
		k++
	}
	if k == 0 || k <= e.highs.pushed-len(e.highs.kept) {
		return float64(k)
	}
	before, now := e.highs.at(k-1), e.highs.at(k)
	if before >= level || now < level {
		return float64(k)
	}
	return float64(k) - (now-level)/(now-before)
}

// pushHighs measures the level of the highs in each part of a hop. The
// difference of neighbouring samples lifts them by 6 dB an octave.
func (e *ear) pushHighs(hopSound []float32) {
	part := len(hopSound) / highsPerHop
	for p := range highsPerHop {
		sum := 0.0
		for _, s := range hopSound[p*part : (p+1)*part] {
			d := float64(s - e.lastSample)
			e.lastSample = s
			sum += d * d
		}
		e.highs.push(10 * math.Log10(sum/float64(part)+1e-12))
	}
}
