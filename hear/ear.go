package hear

import "math"

// How long the ear looks at the sound after an attack, in a recording and
// live, and what it leaves out.
const (
	skipS           = 0.010 // of the stroke's own noise, after the flux rises
	longestLookS    = 0.125 // six periods of E1's octave; more would reach into the next note
	shortestLookS   = 0.050
	liveWaitS       = 0.034 // after the second period: leaves 26 ms of 60 for blocks and hops
	likenessHops    = 2     // hops between two correlations
	likenessSettleS = 0.025 // after an onset, before its period is measured
	likenessBackS   = 0.050 // before an onset, over which the old period is measured
	keptS           = 1.0   // of sound and measurements
	fadeDB          = 0.4   // a second, by which the loudest is forgotten
	stillS          = 0.15  // before an attack, over which stillness is taken
)

// A later attack ends the look at an earlier one when it isn't part of the
// same stroke and has a good share of its flux.
const (
	rivalShare  = 0.3
	rivalLeast  = 0.1
	rivalAfterS = 0.030
)

// An ear follows a stream of samples at the listening rate and reports each
// moment at which a note may begin, in order.
type ear struct {
	flux       *fluxMeter
	corr       *correlator
	newcomer   *newcomer
	report     func(moment) (number int)
	revise     func(m moment, number int) // of a live note that is judged again
	levelled   func(levelDB float64)      // of each hop
	live       bool                       // judges as soon as it can
	reachAhead int                        // hops after an attack that it must outdo

	sound      []float32
	first      int // number of the first sample kept
	frames     int // hops heard
	fluxes     ring[float64]
	levels     ring[float64] // dB of each hop
	highs      ring[float64] // dB of the highs in each part of a hop
	lastSample float32
	peakDB     float64 // of the loudest hop
	likes      ring[[]float64]
	turns      ring[turning]
	waits      []attack  // to be judged, in order
	recent     []attack  // found of late, in order
	revisits   []revisit // to be judged again, live

	loudestDB       float64
	usual           usual
	loudestAt       int
	prevMIDI, prevS float64
	lastOnsetS      float64 // of the attack judged last
	tuning          tuner

	after, before []float64 // likeness, averaged
	total         []float64
	sounding      []float64
	order         []float64
}

func newEar(opts Options, report func(moment) (number int)) *ear {
	lowest, highest := opts.span()
	e := &ear{
		flux: newFluxMeter(), corr: newCorrelator(int(lagOf(lowest-1)) + 3), newcomer: newNewcomer(lowest-0.5, highest+0.5),
		report: report, reachAhead: peakReach, loudestDB: -200,
		peakDB: -200, fluxes: newRing[float64](int(keptS / hopS)), levels: newRing[float64](int(keptS / hopS)), highs: newRing[float64](int(highsPerHop * keptS / hopS)), likes: newRing[[]float64](int(keptS / hopS / likenessHops)), turns: newRing[turning](int(keptS / hopS / likenessHops)),
	}
	// Before the recording was silence.
	e.first = -max(fluxN, e.corr.span(), int(longestLookS*rate)+hop)
	e.sound = make([]float32, -e.first)
	e.after, e.before = make([]float64, e.corr.longest+1), make([]float64, e.corr.longest+1)
	e.sounding = make([]float64, len(e.newcomer.score))
	e.total, e.order = make([]float64, len(e.newcomer.score)), make([]float64, len(e.newcomer.score))
	return e
}

// hear takes the next samples.
func (e *ear) hear(x []float32) {
	for len(x) > 0 {
		n := min(len(x), rate/4)
		e.sound = append(e.sound, x[:n]...)
		x = x[n:]
		for e.end() >= (e.frames+1)*hop {
			e.hop()
		}
		if keep := int(keptS * rate); len(e.sound) > 2*keep {
			cut := len(e.sound) - keep
			e.sound = e.sound[:copy(e.sound, e.sound[cut:])]
			e.first += cut
		}
	}
}

func (e *ear) end() int { return e.first + len(e.sound) }

// between returns samples by number; it is nil when they aren't all kept.
func (e *ear) between(from, to int) []float32 {
	if from < e.first || to > e.end() {
		return nil
	}
	return e.sound[from-e.first : to-e.first]
}

func (e *ear) hop() {
	end := (e.frames + 1) * hop
	e.fluxes.push(e.flux.measure(e.between(end-fluxN, end)))
	level := decibels(e.between(end-hop, end))
	e.peakDB = max(e.peakDB, level)
	e.levels.push(level)
	e.levelled(level)
	e.pushHighs(e.between(end-hop, end))
	if e.frames%likenessHops == 0 {
		slot := e.likes.next()
		*slot = append((*slot)[:0], e.corr.correlate(e.between(end-e.corr.span(), end))...)
		e.turns.push(e.turnNow())
		if a, ok := e.turned(); ok {
			e.wait(a)
		}
	}
	e.frames++
	if i := e.frames - 1 - e.reachAhead; i > riseReach+1 && e.peakAt(i) {
		e.wait(e.attackAt(i))
	}
	e.judgeAll()
}

// moment gathers the evidence of an attack. Its lookS is nought when the
// sound around it is no longer kept.
func (e *ear) moment(a attack, lookS float64, early bool) moment {
	until := int(a.riseS * rate)
	from := max(int((a.riseS+skipS)*rate), int(a.onsetS*rate))
	n := (int((a.onsetS+lookS)*rate) - from) / hop * hop
	before, after := e.between(until-n, until), e.between(from, from+n)
	if before == nil || after == nil {
		return moment{}
	}
	e.newcomer.compare(before, after)
	e.averageLikeness(e.after, a.onsetS+likenessSettleS, a.onsetS+lookS)
	e.averageLikeness(e.before, a.onsetS-likenessBackS, a.onsetS)
	m := moment{onsetS: a.onsetS, flux: a.flux, turn: e.turnAround(a.onsetS), edgeDB: a.edgeDB, lookS: lookS, early: early, stillness: e.stillness(a), busiest: e.busiest(a), prevMIDI: a.prevMIDI, prevS: a.prevS, usual: e.usual.reference}
	e.loudness(&m, before, after, a.frame)
	e.guess(&m)
	return m
}

func (e *ear) averageLikeness(dst []float64, fromS, toS float64) {
	clear(dst)
	count := 0.0
	first := max(int(math.Ceil((fromS/hopS-1)/likenessHops)), e.likes.pushed-len(e.likes.kept), 0)
	for k := first; k < e.likes.pushed && float64(k*likenessHops+1)*hopS <= toS; k++ {
		for i, v := range e.likes.at(k) {
			dst[i] += v
		}
		count++
	}
	for i := range dst {
		dst[i] /= max(count, 1)
	}
}

func (e *ear) busiest(a attack) float64 {
	most := 0.0
	for k := max(0, a.frame-int(stillS/hopS)); k < a.frame-peakReach; k++ {
		most = max(most, e.fluxes.at(k))
	}
	return most
}

func (e *ear) stillness(a attack) float64 {
	sum, count := 0.0, 0.0
	for k := max(0, a.frame-int(stillS/hopS)); k < a.frame-peakReach; k++ {
		sum += e.fluxes.at(k)
		count++
	}
	return sum / max(count, 1)
}

func (e *ear) loudness(m *moment, before, after []float32, frame int) {
	m.levelDB = decibels(after)
	m.riseDB = m.levelDB - decibels(before)
	e.loudestDB = max(e.loudestDB-fadeDB*hopS*float64(frame-e.loudestAt), m.levelDB)
	e.loudestAt = frame
}

// took tells the ear which note was taken last.
func (e *ear) took(m moment) {
	e.usual.add(&m)
	e.prevMIDI, e.prevS = m.midi(), m.onsetS
	e.tuning.add(m.midi(), probability(m.odds()))
}

func decibels(x []float32) float64 {
	sum := 0.0
	for _, s := range x {
		sum += float64(s) * float64(s)
	}
	return 10 * math.Log10(sum/float64(max(len(x), 1))+1e-12)
}
