package sound

import (
	"cmp"
	"math"
	"slices"

	"heddle/pitch"
)

// A keyTone makes the tone of one key for as long as it is held.
//
// The electric piano is a tine in front of a pick-up. With the tine's swing as
// a turning vector (x, y) of falling length r, the pick-up, which stands off
// its middle, adds harmonics that grow with the square and the cube of the
// swing: 2xy = r²·sin 2φ and y(3x²−y²) = r³·sin 3φ. So a hard note barks and
// then mellows. A second mode near the seventh harmonic is the bell of the
// attack.
//
// The drone is five harmonics that hold, each a pair a little out of tune
// with itself, so that it moves.
type keyTone struct {
	made   [][]float32 // in pieces of toneChunk samples
	x, y   float64
	c, s   float64 // turn and shrink of each sample
	bell   [4]float64
	second float64
	third  float64
	drone  []partial
	rise   int
	full   int // samples after which there is no more to make
}

// A partial is one turning vector of the drone.
type partial struct{ x, y, c, s float64 }

// layers is how many strengths of one key are made.
const layers = 2

// The electric piano's figures, chosen by ear and measure.
const (
	tineLowS   = 1.9 // fall by e of a C2
	tineHighS  = 0.5 // and of a C6
	bellRatio  = 7.1
	bellS      = 0.07
	keyRiseS   = 0.0025
	droneRiseS = 0.09
	keyLongS   = 5.0
	droneLongS = 30.0
	keyQuiet   = 5.0 // falls by e after which a tine is let be
)

// newTine returns an electric piano's key in a layer of strength.
func newTine(key, layer int, rate float64) *keyTone {
	hz := pitch.Frequency(float64(key))
	share := min(max(float64(key-36)/48, 0), 1)
	fallS := tineLowS * math.Pow(tineHighS/tineLowS, share)
	force := (float64(layer) + 0.5) / layers
	t := &keyTone{second: 0.10 + 0.42*force, third: 0.28 * force * force, rise: int(keyRiseS * rate)}
	t.x, t.c, t.s = turn(1, hz, fallS, rate)
	if bellHz := bellRatio * hz; bellHz < 0.4*rate {
		t.bell[0], t.bell[2], t.bell[3] = turn(0.05+0.16*force, bellHz, bellS, rate)
	}
	t.full = int(min(keyQuiet*fallS, keyLongS) * rate)
	return t
}

// droneLevels holds the levels of the drone's harmonics.
var droneLevels = [...]float64{0.6, 0.3, 0.2, 0.1, 0.05}

// newDrone returns a drone's key.
func newDrone(key int, rate float64) *keyTone {
	hz := pitch.Frequency(float64(key))
	t := &keyTone{rise: int(droneRiseS * rate), full: int(droneLongS * rate)}
	for i, level := range droneLevels {
		for _, beat := range []float64{-0.11, 0.14} {
			x, c, s := turn(level/2, float64(i+1)*hz+beat*float64(i+1), 1e9, rate)
			t.drone = append(t.drone, partial{x, 0, c, s})
		}
	}
	return t
}

// turn returns a vector's length and what each sample turns and shrinks it by.
func turn(level, hz, fallS, rate float64) (x, c, s float64) {
	r := math.Exp(-1 / (fallS * rate))
	w := 2 * math.Pi * hz / rate
	return level, r * math.Cos(w), r * math.Sin(w)
}

// toneChunk is how many samples of a tone are made at a time.
const toneChunk = 4096

// from returns samples of the tone from one on, at most n, making what is not
// yet made; fewer where a piece of it ends, none where the tone does.
func (t *keyTone) from(at, n int) []float32 {
	n = min(n, t.full-at)
	if n <= 0 {
		return nil
	}
	for at >= len(t.made)*toneChunk {
		t.made = append(t.made, t.make(len(t.made)*toneChunk))
	}
	within := t.made[at/toneChunk][at%toneChunk:]
	return within[:min(n, len(within))]
}

// make makes the next piece, which begins at a sample.
func (t *keyTone) make(from int) []float32 {
	fresh := make([]float32, toneChunk)
	if t.drone != nil {
		t.makeDrone(fresh)
	} else {
		t.makeTine(fresh)
	}
	for i := range max(0, min(toneChunk, t.rise-from)) {
		fresh[i] *= step(float64(from+i) / float64(t.rise))
	}
	tail := t.full / 8
	for i := max(0, t.full-tail-from); i < toneChunk; i++ {
		fresh[i] *= float32(max(t.full-1-from-i, 0)) / float32(tail)
	}
	return fresh
}

// makeDrone adds the drone's partials.
func (t *keyTone) makeDrone(fresh []float32) {
	for k := range t.drone {
		p := &t.drone[k]
		x, y := p.x, p.y
		for i := range fresh {
			x, y = p.c*x-p.s*y, p.s*x+p.c*y
			fresh[i] += float32(y)
		}
		p.x, p.y = x, y
	}
}

// makeTine makes the tine as its pick-up hears it, and its bell.
func (t *keyTone) makeTine(fresh []float32) {
	x, y, u, v := t.x, t.y, t.bell[0], t.bell[1]
	c, s, bc, bs, second, third := t.c, t.s, t.bell[2], t.bell[3], 2*t.second, t.third
	for i := range fresh {
		x, y = c*x-s*y, s*x+c*y
		u, v = bc*u-bs*v, bs*u+bc*v
		fresh[i] = float32(y + second*x*y + third*y*(3*x*x-y*y) + v)
	}
	t.x, t.y, t.bell[0], t.bell[1] = x, y, u, v
}

// A keyboard plays keys: the electric piano or the drone.
type keyboard struct {
	drone bool
	rate  float64
	place place
	notes func(pass) []keyNote
	tones map[int]*keyTone // by key·layers + layer
	queue []keyNote
	live  []pressed
	mono  []float32
}

// A pressed is a key that sounds.
type pressed struct {
	keyNote
	tone  *keyTone
	done  int
	gain  float32
	falls float32 // gain left of the damper, 1 while held
}

// The dampers.
const (
	damperS      = 0.05 // fall by e once let go
	droneDamperS = 0.12
	damped       = 1e-4 // −80 dB: let be
)

// newKeyboard returns a keyboard at rest.
func newKeyboard(drone bool, rate float64, pl place, notes func(pass) []keyNote) *keyboard {
	return &keyboard{drone: drone, rate: rate, place: pl, notes: notes, tones: map[int]*keyTone{}, mono: make([]float32, blockLength)}
}

// feed takes in the notes of a pass.
func (k *keyboard) feed(p pass, from int64) {
	for _, n := range k.notes(p) {
		if n.at >= from {
			k.queue = append(k.queue, n)
		}
	}
	slices.SortStableFunc(k.queue, func(a, b keyNote) int { return cmp.Compare(a.at, b.at) })
}

// press starts a note.
func (k *keyboard) press(n keyNote) {
	force := min(max(n.force, 0), 0.999)
	layer := int(force * layers)
	if k.drone {
		layer = 0
	}
	id := n.key*layers + layer
	t := k.tones[id]
	if t == nil {
		if t = newTine(n.key, layer, k.rate); k.drone {
			t = newDrone(n.key, k.rate)
		}
		k.tones[id] = t
	}
	k.live = append(k.live, pressed{keyNote: n, tone: t, gain: float32(0.25 + 0.75*force), falls: 1})
}

// play adds a block of the keyboard to the mix.
func (k *keyboard) play(b *block) {
	end := b.from + int64(len(b.left))
	for len(k.queue) > 0 && k.queue[0].at < end {
		k.press(k.queue[0])
		k.queue = k.queue[1:]
	}
	if len(k.live) == 0 {
		return
	}
	mono := k.mono[:len(b.left)]
	clear(mono)
	for i := range k.live {
		k.sound(mono, b.from, &k.live[i])
	}
	k.live = slices.DeleteFunc(k.live, func(p pressed) bool { return p.falls < damped || p.done >= p.tone.full })
	b.add(mono, k.place)
}

// sound adds one key to a block that begins at a sample.
func (k *keyboard) sound(mono []float32, from int64, p *pressed) {
	start := max(0, int(p.at-from))
	held := min(len(mono), max(start, int(p.off-from)))
	for at := start; at < held; {
		tone := p.tone.from(p.done, held-at)
		if len(tone) == 0 {
			return
		}
		out := mono[at:][:len(tone)]
		for i, x := range tone {
			out[i] += x * p.gain
		}
		p.done += len(tone)
		at += len(tone)
	}
	for at := held; at < len(mono); {
		tone := p.tone.from(p.done, len(mono)-at)
		if len(tone) == 0 {
			return
		}
		k.release(mono[at:][:len(tone)], tone, p)
		p.done += len(tone)
		at += len(tone)
	}
}

// release adds a key that has been let go.
func (k *keyboard) release(out, tone []float32, p *pressed) {
	s := damperS
	if k.drone {
		s = droneDamperS
	}
	fall := float32(math.Exp(-1 / (s * k.rate)))
	g := p.gain * p.falls
	for i, x := range tone {
		g *= fall
		out[i] += x * g
	}
	p.falls = g / p.gain
}
