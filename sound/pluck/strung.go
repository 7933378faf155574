package pluck

import (
	"math"
	"strings"

	"heddle/neck"
	"heddle/sound/dsp"
)

// A pickup is what turns a string's movement into a signal.
type pickup struct {
	travelS float64 // of the wave from the pick-up to the bridge and back, on this string
	depth   float32 // how much of what comes back is taken away, below 1 for a wide magnet
	tones   []tone
}

// pickupRingS is how long the tones ring after a push.
const pickupRingS = 0.0025

// A tone is one filter of what lies between string and stage.
type tone struct {
	kind  toneKind
	hz, q float64
	dB    float64 // of a peak
}

// A toneKind is the shape of a tone filter.
type toneKind int

const (
	above  toneKind = iota // passes what is above a corner
	below                  // passes what is below
	around                 // lifts what is around
)

// filter returns the tone's filter.
func (t tone) filter(rate float64) *dsp.Biquad {
	switch t.kind {
	case above:
		return dsp.HighPass(t.hz, t.q, rate)
	case below:
		return dsp.LowPass(t.hz, t.q, rate)
	}
	return dsp.Peak(t.hz, t.q, t.dB, rate)
}

// A Strung is what an instrument's strings, pick and pick-up are like. The
// figures are ours, chosen by measure from the range that real instruments
// have.
type Strung struct {
	ringLowS, ringHighS float64 // 60 dB decay of an open low E and of the E two octaves above
	high                float64 // b₂ of losses, in seconds
	stopLoss            float64 // octaves of fretting that halve the ring, in powers of e
	pickMM              float64 // from the bridge
	pickupMM            float64 // from the bridge
	depth               float32
	tones               []tone
	softS, hardS        float64 // over which a soft and a hard stroke let go
	scrape              float64
	dampS               float64 // a stopped note dies within this
	amp                 ampKind
}

// An ampKind is what a strung instrument is heard through.
type ampKind int

const (
	guitarAmp ampKind = iota
	noAmp
)

// The kinds of strung instrument. Pick-up coil and cable resonate near 4 kHz;
// a twelve-inch loudspeaker has its own resonance near 75 Hz and a rise near
// 2.5 kHz (makers' curves, common knowledge); a wooden body has its lowest
// modes near 200 Hz on a small instrument.
var (
	electricGuitar = Strung{
		ringLowS: 9, ringHighS: 5, high: 3.4e-7, stopLoss: 1.4,
		pickMM: 95, pickupMM: 128, depth: 0.85,
		tones: []tone{{below, 3600, 1.3, 0}, {around, 2300, 0.9, 4}, {above, 75, 1.1, 0}},
		softS: 0.00055, hardS: 0.00016, scrape: 0.05, dampS: 0.07, amp: guitarAmp,
	}
	ElectricBass = Strung{
		ringLowS: 8, ringHighS: 4, high: 8e-7, stopLoss: 1.2,
		pickMM: 150, pickupMM: 190, depth: 0.8,
		tones: []tone{{below, 2200, 0.9, 0}, {around, 700, 0.9, 3}, {above, 32, 0.9, 0}, {below, 3200, 0.7, 0}},
		softS: 0.0014, hardS: 0.0006, scrape: 0.01, dampS: 0.06, amp: noAmp,
	}
	nylonStrung = Strung{
		ringLowS: 3.2, ringHighS: 1.6, high: 9e-7, stopLoss: 1.2,
		pickMM: 110, pickupMM: 20, depth: 0.55,
		tones: []tone{{below, 4200, 0.8, 0}, {around, 480, 1.2, 3}, {above, 90, 0.8, 0}, {around, 210, 1.5, 5}},
		softS: 0.0009, hardS: 0.0004, scrape: 0.02, dampS: 0.06, amp: noAmp,
	}
	steelCourse = Strung{
		ringLowS: 4, ringHighS: 2, high: 3e-7, stopLoss: 1.3,
		pickMM: 60, pickupMM: 15, depth: 0.55,
		tones: []tone{{below, 5200, 0.9, 0}, {around, 1200, 0.9, 3}, {above, 110, 0.8, 0}, {around, 260, 1.5, 4}},
		softS: 0.0004, hardS: 0.00014, scrape: 0.06, dampS: 0.06, amp: noAmp,
	}
)

// StrungFor says what kind of strings an instrument has: by its name where
// the name says it, else by its lowest string and length.
func StrungFor(in neck.Instrument) Strung {
	name := strings.ToLower(in.Name)
	switch {
	case strings.Contains(name, "bass"):
		return ElectricBass
	case strings.Contains(name, "ukulele"):
		return nylonStrung
	case strings.Contains(name, "mandolin"):
		return steelCourse
	case in.ScaleMM >= longNeckMM:
		return ElectricBass
	case in.ScaleMM > 0 && in.ScaleMM < shortNeckMM:
		return nylonStrung
	}
	return electricGuitar
}

// Between these lengths a neck is a guitar's: basses begin near 760 mm (short
// scale), small instruments end near 500 mm (common practice).
const (
	longNeckMM  = 740
	shortNeckMM = 520
)

// losses returns what a stopped string loses. Between the low E and the E two
// octaves above, the ring goes from one figure to the other with the key; a
// stopped string rings shorter than an open one of the same key.
func (s Strung) losses(openKey, fret float64) losses {
	const lowE, octaves = 40, 24
	share := min(max((openKey-lowE)/octaves, -0.5), 1.2)
	ring := s.ringLowS + (s.ringHighS-s.ringLowS)*share
	return losses{ringS: max(ring, 0.5) * math.Exp2(-fret/12/s.stopLoss), high: s.high}
}

// StringMM returns the length of an instrument's strings at the capo, or a
// guitar's where the instrument has none.
func StringMM(in neck.Instrument) float64 {
	if in.ScaleMM <= 0 {
		return neck.Guitar().ScaleMM
	}
	return in.ScaleMM - in.FretMM(0)
}
