package pluck

import (
	"math"

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
	around                 // lifts or lowers what is around
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

// A Strung is what an instrument's strings, pick and pick-up are like, and
// what they are heard through.
type Strung struct {
	lowest, highest stringKind // strings at the ends; those between lie between
	plainFrom       float64    // the open key from which strings are not wound
	planes          []plane
	stopLoss        float64 // octaves of fretting that double the floor of losses
	pickMM          float64 // from the bridge
	pickupMM        float64 // from the bridge
	depth           float32
	tones           []tone
	softS, hardS    float64 // over which a soft and a hard stroke let go
	scrape          float64 // noise of the pick
	knock           float64 // thud of pick or finger, against the stroke
	rub             float64 // squeak of a finger that moves along a wound string
	dampS           float64 // a stopped note dies within this
	out             outlet
}

// A stringKind is one open string.
type stringKind struct {
	key    float64
	losses losses
	b      float64 // inharmonicity
}

// strung returns the losses and the inharmonicity of a stopped string. A stopped
// string rings shorter than an open one of the same key, and is stiffer by the
// square of its shortening (Fletcher and Rossing 1998, eq. 2.67).
func (s Strung) strung(openKey, fret float64) (losses, float64) {
	share := min(max((openKey-s.lowest.key)/max(s.highest.key-s.lowest.key, 1), -0.3), 1.2)
	between := func(a, b float64) float64 { return a * math.Pow(b/a, share) }
	low, high := s.lowest.losses, s.highest.losses
	l := losses{
		floor:   between(low.floor, high.floor) * math.Exp2(fret/12/s.stopLoss),
		plateau: between(low.plateau, high.plateau),
		corner:  between(low.corner, high.corner),
	}
	return l, between(s.lowest.b, s.highest.b) * math.Exp2(fret/6)
}

// StringMM returns the length of an instrument's strings at the capo, or a
// guitar's where the instrument has none.
func StringMM(in neck.Instrument) float64 {
	if in.ScaleMM <= 0 {
		return neck.Guitar().ScaleMM
	}
	return in.ScaleMM - in.FretMM(0)
}
