package listen

import (
	"math"

	"heddle/hear/internal/spectral"
)

// The span of what is heard: E1 to E6.
const (
	LowestKey  = 28
	HighestKey = 88
)

// How long the sound around an attack is looked at, in a recording and live.
const (
	skipS             = 0.010 // of the stroke's own noise, after the flux rises
	longestLookS      = 0.125 // six periods of E1's octave; more would reach into the next note
	shortestLookS     = 0.050
	liveWaitS         = 0.034 // after the second period: leaves 26 ms of 60 for blocks and hops
	similarityHops    = 2     // hops between two correlations
	similaritySettleS = 0.025 // after an onset, before its period is measured
	similarityBackS   = 0.050 // before an onset, over which the old period is measured
	keptS             = 1.0   // of sound and measurements
	fadeDB            = 0.4   // a second, by which the loudest is forgotten
	stillS            = 0.15  // before an attack, over which stillness is measured
)

// A tracker follows a stream of samples and reports each moment at which a note
// may begin, in order.
type tracker struct {
	flux           *spectral.FluxMeter
	correlator     *spectral.Correlator
	novelty        *novelty
	report         func(Moment) (number int)
	revise         func(m Moment, number int) // a live note that was looked at again
	live           bool                       // reports as soon as it can
	peakReachAhead int                        // hops after an attack that it must be higher than

	sound        []float32
	first        int // number of the first sample kept
	frames       int // hops heard
	fluxes       ring[float64]
	levels       ring[float64] // dB of each hop
	highs        ring[float64] // dB of the highs in each part of a hop
	lastSample   float32
	peakDB       float64 // of the loudest hop
	decay        decay
	similarities ring[[]float64]
	changes      ring[periodChange]
	waiting      []attack  // to be looked at, in order
	recent       []attack  // found last, in order
	revisits     []revisit // to be looked at again, live

	loudestDB       float64
	loudestAt       int
	typical         loudness
	prevMIDI, prevS float64
	lastOnsetS      float64 // of the attack looked at last
	tuning          tuning

	after, before []float64 // similarity, averaged
	total         []float64
	sounding      []float64
	sorted        []float64
}

func newTracker(opts Options, report func(Moment) int, revise func(Moment, int)) *tracker {
	const hops = int(keptS / spectral.HopS)
	t := &tracker{
		flux: spectral.NewFluxMeter(), correlator: spectral.NewCorrelator(int(lagOf(opts.Lowest-1)) + 3),
		novelty: newNovelty(opts.Lowest-0.5, opts.Highest+0.5), report: report, revise: revise,
		live: opts.Live, peakReachAhead: peakReach, peakDB: -200, loudestDB: -200,
		fluxes: newRing[float64](hops), levels: newRing[float64](hops), highs: newRing[float64](highsPerHop * hops),
		similarities: newRing[[]float64](hops / similarityHops), changes: newRing[periodChange](hops / similarityHops),
	}
	if opts.Live {
		t.peakReachAhead = livePeakReach
	}
	// Before the recording was silence.
	t.first = -max(spectral.FluxN, t.correlator.Span(), int(longestLookS*spectral.Rate)+spectral.Hop)
	t.sound = make([]float32, -t.first)
	t.after, t.before = make([]float64, t.correlator.Longest+1), make([]float64, t.correlator.Longest+1)
	steps := len(t.novelty.score)
	t.sounding, t.total, t.sorted = make([]float64, steps), make([]float64, steps), make([]float64, steps)
	return t
}

func (t *tracker) feed(x []float32) {
	for len(x) > 0 {
		n := min(len(x), spectral.Rate/4)
		t.sound = append(t.sound, x[:n]...)
		x = x[n:]
		for t.first+len(t.sound) >= (t.frames+1)*spectral.Hop {
			t.hop()
		}
		if keep := int(keptS * spectral.Rate); len(t.sound) > 2*keep {
			cut := len(t.sound) - keep
			t.sound = t.sound[:copy(t.sound, t.sound[cut:])]
			t.first += cut
		}
	}
}

// between returns samples by number; it is nil when they aren't all kept.
func (t *tracker) between(from, to int) []float32 {
	if from < t.first || to > t.first+len(t.sound) {
		return nil
	}
	return t.sound[from-t.first : to-t.first]
}

func (t *tracker) hop() {
	end := (t.frames + 1) * spectral.Hop
	t.fluxes.push(t.flux.Measure(t.between(end-spectral.FluxN, end)))
	hop := t.between(end-spectral.Hop, end)
	level := spectral.Decibels(hop)
	t.peakDB = max(t.peakDB, level)
	t.levels.push(level)
	t.decay.add(level)
	t.pushHighs(hop)
	if t.frames%similarityHops == 0 {
		slot := t.similarities.next()
		*slot = append((*slot)[:0], t.correlator.Correlate(t.between(end-t.correlator.Span(), end))...)
		t.changes.push(t.changeNow())
		if a, ok := t.changed(); ok {
			t.wait(a)
		}
	}
	t.frames++
	if i := t.frames - 1 - t.peakReachAhead; i > riseReach+1 && t.peakAt(i) {
		t.wait(t.attackAt(i))
	}
	t.lookAtAll()
}

// moment gathers the evidence of an attack. Its lookS is 0 when the sound around
// it is no longer kept.
func (t *tracker) moment(a attack, lookS float64, early bool) Moment {
	until := int(a.riseS * spectral.Rate)
	from := max(int((a.riseS+skipS)*spectral.Rate), int(a.onsetS*spectral.Rate))
	n := (int((a.onsetS+lookS)*spectral.Rate) - from) / spectral.Hop * spectral.Hop
	before, after := t.between(until-n, until), t.between(from, from+n)
	if before == nil || after == nil {
		return Moment{}
	}
	t.novelty.compare(before, after)
	t.averageSimilarity(t.after, a.onsetS+similaritySettleS, a.onsetS+lookS)
	t.averageSimilarity(t.before, a.onsetS-similarityBackS, a.onsetS)
	m := Moment{
		OnsetS: a.onsetS, flux: a.flux, periodGain: t.gainAround(a.onsetS), edgeDB: a.edgeDB, lookS: lookS, early: early,
		prevMIDI: a.prevMIDI, prevS: a.prevS, typical: t.typical, levelDB: spectral.Decibels(after),
	}
	m.stillness, m.busiest = t.fluxBefore(a)
	m.riseDB = m.levelDB - spectral.Decibels(before)
	t.loudestDB = max(t.loudestDB-fadeDB*spectral.HopS*float64(a.frame-t.loudestAt), m.levelDB)
	t.loudestAt = a.frame
	t.findCandidates(&m)
	return m
}

func (t *tracker) averageSimilarity(dst []float64, fromS, toS float64) {
	clear(dst)
	count := 0.0
	first := max(int(math.Ceil((fromS/spectral.HopS-1)/similarityHops)), t.similarities.pushed-len(t.similarities.kept), 0)
	for k := first; k < t.similarities.pushed && float64(k*similarityHops+1)*spectral.HopS <= toS; k++ {
		for i, v := range t.similarities.at(k) {
			dst[i] += v
		}
		count++
	}
	for i := range dst {
		dst[i] /= max(count, 1)
	}
}

// fluxBefore returns the mean and the highest flux of the time before an attack.
func (t *tracker) fluxBefore(a attack) (mean, highest float64) {
	sum, count := 0.0, 0.0
	for k := max(0, a.frame-int(stillS/spectral.HopS)); k < a.frame-peakReach; k++ {
		sum += t.fluxes.at(k)
		highest = max(highest, t.fluxes.at(k))
		count++
	}
	return sum / max(count, 1), highest
}

// took enters the note that was taken last.
func (t *tracker) took(m Moment) {
	best := m.best()
	t.typical.add(&m)
	t.prevMIDI, t.prevS = best.MIDI, m.OnsetS
	t.tuning.add(best.MIDI, Probability(best.LogOdds))
}

// A ring keeps the last values of a series, by their number in it.
type ring[T any] struct {
	kept   []T
	pushed int
}

func newRing[T any](size int) ring[T] { return ring[T]{kept: make([]T, size)} }

// next makes room for one more value and returns its place, which holds an old
// value to be overwritten.
func (r *ring[T]) next() *T {
	slot := &r.kept[r.pushed%len(r.kept)]
	r.pushed++
	return slot
}

func (r *ring[T]) push(v T) { *r.next() = v }

// at returns value number i, which must still be kept.
func (r *ring[T]) at(i int) T { return r.kept[i%len(r.kept)] }
