package sound

import "math"

// A piece is one thing of the drum kit struck in one way.
type piece int

// The pieces.
const (
	kick piece = iota
	snare
	ghost // the snare, barely
	crossStick
	brushTap
	brushSweep
	hatClosed
	hatOpen
	hatPedal
	ride
	pieces
)

// takes is how many strokes of a piece are made, no two alike.
const takes = 3

// A pieceMix is where a piece stands in the kit.
type pieceMix struct {
	gain, pan, send float64
	choke           int
}

// kitMix places the kit as a listener in front of a right-handed drummer
// hears it.
var kitMix = [pieces]pieceMix{
	kick:       {1.0, 0, 0.05, 0},
	snare:      {0.62, 0.06, 0.5, 0},
	ghost:      {0.3, 0.06, 0.4, 0},
	crossStick: {0.4, 0.08, 0.6, 0},
	brushTap:   {0.55, 0.06, 0.5, 0},
	brushSweep: {0.4, -0.05, 0.4, 0},
	hatClosed:  {0.3, 0.32, 0, 1},
	hatOpen:    {0.27, 0.32, 0.2, 1},
	hatPedal:   {0.3, 0.32, 0.2, 1},
	ride:       {0.6, -0.38, 0, 0},
}

// newKit makes the strokes of the pieces that are asked for. The sound of
// piece p in take t is number p·takes+t.
func newKit(needed [pieces]bool, pl place, rate float64) []sample {
	kit := make([]sample, pieces*takes)
	for p := range pieces {
		if !needed[p] {
			continue
		}
		mix := kitMix[p]
		for t := range takes {
			d := rollFor(uint64(p), t)
			kit[int(p)*takes+t] = sample{
				samples: struck(p, &d, rate),
				place:   pl.turned(mix.pan, mix.gain, mix.send),
				choke:   mix.choke,
			}
		}
	}
	return kit
}

// struck makes one stroke of a piece.
func struck(p piece, d *dice, rate float64) []float32 {
	switch p {
	case kick:
		return kickDrum(d, rate)
	case snare:
		return snareDrum(d, rate, 1)
	case ghost:
		return snareDrum(d, rate, 0.35)
	case crossStick:
		return stick(d, rate)
	case brushTap:
		return brush(d, rate, 0.002, 0.09)
	case brushSweep:
		return brush(d, rate, 0.12, 0.2)
	case hatClosed:
		return hat(d, rate, 0.035)
	case hatOpen:
		return hat(d, rate, 0.22)
	case hatPedal:
		return hat(d, rate, 0.05)
	}
	return rideCymbal(d, rate)
}

// A mode is one way a struck thing rings.
type mode struct {
	hz, level, decayS float64
}

// ringFalls is how many times a mode falls by e before it is let be, at −65 dB.
const ringFalls = 7.5

// ring adds modes to s, each a sine that falls by e in its decay time, made
// by turning a vector: z ← z·r·e^(jω).
func ring(s []float32, modes []mode, rate float64) {
	for _, m := range modes {
		if m.hz > 0.45*rate {
			continue
		}
		r := math.Exp(-1 / (m.decayS * rate))
		c, q := r*math.Cos(2*math.Pi*m.hz/rate), r*math.Sin(2*math.Pi*m.hz/rate)
		x, y := m.level, 0.0
		for i := range s[:min(len(s), int(ringFalls*m.decayS*rate))] {
			x, y = c*x-q*y, q*x+c*y
			s[i] += float32(y)
		}
	}
}

// hiss returns noise that falls by e in its decay time.
func hiss(n int, level, decayS float64, d *dice, rate float64) []float32 {
	s := make([]float32, n)
	g, fall := float32(level), float32(math.Exp(-1/(decayS*rate)))
	for i := range s {
		s[i] = d.noise() * g
		g *= fall
	}
	return s
}

// mixIn adds b to a.
func mixIn(a, b []float32) {
	for i, x := range b[:min(len(a), len(b))] {
		a[i] += x
	}
}

// near returns a number up to a share away from x.
func (d *dice) near(x, share float64) float64 { return x * (1 + share*d.swing()) }

// kickDrum is a skin whose pitch falls as its tension does, and the beater.
func kickDrum(d *dice, rate float64) []float32 {
	const lengthS, fallS, decayS = 0.32, 0.022, 0.085
	low, high := d.near(50, 0.02), d.near(120, 0.05)
	s := make([]float32, int(lengthS*rate))
	phase, bend, g := 0.0, high-low, 1.0
	bendFall, fall := math.Exp(-1/(fallS*rate)), math.Exp(-1/(decayS*rate))
	for i := range s {
		phase += 2 * math.Pi * (low + bend) / rate
		bend *= bendFall
		g *= fall
		s[i] = float32(math.Sin(phase) * g)
	}
	beater := hiss(int(0.02*rate), 0.5, 0.0022, d, rate)
	lowPass(3500, 0.7, rate).filter(beater)
	mixIn(s, beater)
	finish(s, rate)
	return s
}

// snareDrum is two modes of the skin and the snares, which answer longer the
// harder it is struck.
func snareDrum(d *dice, rate, force float64) []float32 {
	s := make([]float32, int((0.12+0.16*force)*rate))
	ring(s, []mode{
		{d.near(188, 0.02), 0.7, 0.045}, {d.near(331, 0.02), 0.4, 0.03}, {d.near(530, 0.03), 0.15, 0.02},
	}, rate)
	snares := hiss(len(s), 0.9, 0.028+0.03*force, d, rate)
	highPass(1400, 0.7, rate).filter(snares)
	peak(4200, 0.8, 5, rate).filter(snares)
	lowPass(5500+4500*force, 0.6, rate).filter(snares)
	mixIn(s, snares)
	finish(s, rate)
	return s
}

// stick is the stick laid across the snare and struck on its rim.
func stick(d *dice, rate float64) []float32 {
	s := make([]float32, int(0.09*rate))
	ring(s, []mode{
		{d.near(480, 0.02), 0.5, 0.012}, {d.near(1680, 0.02), 0.9, 0.009}, {d.near(2730, 0.03), 0.4, 0.006},
	}, rate)
	mixIn(s, hiss(len(s)/4, 0.25, 0.002, d, rate))
	finish(s, rate)
	return s
}

// brush is wire on the skin: noise that swells and falls.
func brush(d *dice, rate, riseS, fallS float64) []float32 {
	n := int((riseS + 3.2*fallS) * rate)
	s := hiss(n, 0.8, 1e3, d, rate)
	for i := range s {
		x := float64(i) / rate
		g := float64(step(x / riseS))
		if x > riseS {
			g = math.Exp(-(x - riseS) / fallS * 2)
		}
		s[i] *= float32(g)
	}
	highPass(900, 0.6, rate).filter(s)
	lowPass(6500, 0.6, rate).filter(s)
	finish(s, rate)
	return s
}

// hatModes is how many modes stand for a pair of hats.
const hatModes = 8

// hat is a pair of small cymbals: a cluster of high modes that fit no scale,
// and the rattle between them.
func hat(d *dice, rate, decayS float64) []float32 {
	s := hiss(int((0.02+5*decayS)*rate), 0.8, decayS, d, rate)
	highPass(6200, 0.8, rate).filter(s)
	lowPass(12500, 0.6, rate).filter(s)
	modes := make([]mode, hatModes)
	for i := range modes {
		modes[i] = mode{3100 * math.Pow(1.21, float64(i)+0.4*d.unit()), 0.09, decayS * d.near(0.8, 0.3)}
	}
	ring(s, modes, rate)
	finish(s, rate)
	return s
}

// rideModes is how many modes stand for a ride cymbal, from 380 Hz to 6 kHz:
// enough that no one pitch is heard. What is higher is in its noise, since
// single high modes would whistle.
const rideModes = 18

// rideCymbal is the tip of the stick on a large cymbal: a clear ping over a
// wash that lasts.
func rideCymbal(d *dice, rate float64) []float32 {
	s := make([]float32, int(1.2*rate))
	modes := make([]mode, rideModes)
	for i := range modes {
		hz := 380 * math.Pow(1.165, float64(i)+0.5*d.swing())
		modes[i] = mode{hz, 0.08 * math.Pow(min(1, hz/2500), 0.7), d.near(0.36, 0.3) * math.Pow(2000/(2000+hz), 0.6)}
	}
	ring(s, modes, rate)
	wash := hiss(int(0.9*rate), 0.22, 0.2, d, rate)
	highPass(4200, 0.7, rate).filter(wash)
	lowPass(12500, 0.6, rate).filter(wash)
	mixIn(s, wash)
	ping := hiss(int(0.03*rate), 0.6, 0.004, d, rate)
	bandPass(5200, 0.9, rate).filter(ping)
	mixIn(s, ping)
	finish(s, rate)
	return s
}

// finish takes out what lies below hearing, lets the sound begin and end at
// nothing, and brings its peak to 1.
func finish(s []float32, rate float64) {
	highPass(28, 0.7, rate).filter(s)
	tail := min(len(s), int(0.02*rate))
	for i := range tail {
		s[len(s)-1-i] *= float32(i) / float32(tail)
	}
	rise := int(0.0004 * rate)
	for i := range min(rise, len(s)) {
		s[i] *= float32(i) / float32(rise)
	}
	top := float32(0)
	for _, x := range s {
		top = max(top, x, -x)
	}
	if top > 0 {
		scale(s, 1/float64(top))
	}
}
