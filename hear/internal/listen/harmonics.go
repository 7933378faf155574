package listen

import "math"

// The harmonics of one pitch, as a moment's spectra hold them.
type harmonics struct {
	odd, even     float64 // what is new, by the numbers of the harmonics
	first         float64 // what is new in the first
	sum           float64 // in all
	centre        float64 // the mean number of a harmonic
	between       float64 // what is new halfway between them
	half          float64 // what is new at half the first
	filled        float64 // the share of odd harmonics that are clearly new
	filledBetween float64 // and of the places between, where the octave below has its own
	after, before float64 // power of all sound there
	power         float64 // of what is new
}

// Ten harmonics are enough to tell an octave and a timbre. Whether one of the
// first seven is clearly new is measured against a share of the strongest: an
// amplifier or a body may lift one harmonic far above the others.
const (
	harmonicsUsed   = 10
	filledHarmonics = 7
	filledShare     = 0.3
)

func (n *novelty) harmonics(step int) (v harmonics) {
	teeth := n.combs[step]
	strongest := 1e-9
	for _, t := range teeth[:min(filledHarmonics, len(teeth))] {
		strongest = max(strongest, t.on(n.fresh))
	}
	odds, places := 0.0, 0.0
	for h, t := range teeth[:min(harmonicsUsed, len(teeth))] {
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
