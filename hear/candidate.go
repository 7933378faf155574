package hear

import (
	"cmp"
	"math"
	"slices"
)

// peaksKept is how many pitches of one moment are weighed for what is new in
// the sound. Up to four more are for other reasons.
const peaksKept = 4

// A candidate is a pitch that a moment may bring, and what speaks for it.
type candidate struct {
	midi    float64
	levelDB float64 // of what is new at its harmonics
	signs   [signCount]float32
	odds    float64 // logarithm of the odds that a note of this pitch begins here
}

// candidates lists the pitches that stand out from their neighbours, the
// best first, with the octaves of the best, the commonest mistakes, the pitch of
// the note before, which a second stroke may bring little that is new of, and
// the pitch of the sound's period, which no colour of the sound can hide.
func (e *ear) candidates(prevMIDI float64) []int {
	last := len(e.total) - 1
	var peaks []int
	for k, s := range e.total {
		if (k == 0 || s > e.total[k-1]) && (k == last || s >= e.total[k+1]) {
			peaks = append(peaks, k)
		}
	}
	slices.SortFunc(peaks, func(a, b int) int { return cmp.Compare(e.total[b], e.total[a]) })
	var kept []int
	add := func(k int) {
		apart := func(other int) bool { return math.Abs(float64(k-other)) < samePitch*stepsPerKey }
		if k >= 0 && k <= last && !slices.ContainsFunc(kept, apart) {
			kept = append(kept, k)
		}
	}
	for _, k := range peaks {
		if add(k); len(kept) == peaksKept {
			break
		}
	}
	if len(kept) > 0 {
		add(e.topAround(kept[0] + 12*stepsPerKey))
		add(e.topAround(kept[0] - 12*stepsPerKey))
	}
	if prevMIDI > 0 {
		add(e.topAround(e.newcomer.step(prevMIDI)))
	}
	if lag := shortestPeriod(e.after); lag > 0 {
		add(e.topAround(e.newcomer.step(keyOf(lag))))
	}
	return kept
}

// topAround is the best step within a quarter tone of one.
func (e *ear) topAround(step int) int {
	const reach = stepsPerKey / 2
	best := step
	for k := max(0, step-reach); k <= min(len(e.total)-1, step+reach); k++ {
		if best < 0 || best >= len(e.total) || e.total[k] > e.total[best] {
			best = k
		}
	}
	return best
}

// A voice is what one pitch's harmonics hold of a moment's spectra.
type voice struct {
	odd, even     float64 // what is new, by the numbers of the harmonics
	first         float64 // what is new in the first
	sum           float64 // in all
	centre        float64 // the mean number of a harmonic
	between       float64 // what is new halfway between them
	half          float64 // what is new at half the first
	filled        float64 // the share of odd harmonics that are clearly new
	filledBetween float64 // and of the places between, where the octave below has its own
	after, before float64 // power of all that sounds there
	power         float64 // of what is new
}

// voiceHarmonics are enough to tell an octave and a timbre. Whether a place
// among the first filledHarmonics is clearly new is taken against a share of the
// strongest, for an amplifier or a body may lift one harmonic far above the others.
const (
	voiceHarmonics  = 10
	filledHarmonics = 7
	filledShare     = 0.3
)

func (n *newcomer) voice(step int) (v voice) {
	teeth := n.combs[step]
	strongest := 1e-9
	for _, t := range teeth[:min(filledHarmonics, len(teeth))] {
		strongest = max(strongest, t.on(n.fresh))
	}
	odds, places := 0.0, 0.0
	for h, t := range teeth[:min(voiceHarmonics, len(teeth))] {
		on, off := t.on(n.fresh), t.off(n.fresh)
		x := max(0, on-off)
		if h%2 == 0 { // the first harmonic is odd
			v.odd += x
		} else {
			v.even += x
		}
		if h == 0 {
			v.first, v.half = on, off
		}
		if h < filledHarmonics {
			places++
			v.filledBetween += min(1, off/(filledShare*strongest))
			if h%2 == 0 {
				odds++
				v.filled += min(1, on/(filledShare*strongest))
			}
		}
		v.sum += on
		v.centre += float64(h+1) * on
		v.between += off
		v.power += math.Pow(on, 4)
		a, b := t.on(n.after), t.on(n.before)
		v.after += a * a
		v.before += b * b
	}
	v.centre /= v.sum + 1e-9
	v.filled /= max(odds, 1)
	v.filledBetween /= max(places, 1)
	return v
}
