package keyboard

import (
	"math"

	"heddle/pitch"
	"heddle/sound/dsp"
)

// A Tone makes the tone of one key for as long as it is held.
//
// The electric piano is a tine in front of a pick-up. With the tine's swing as
// a turning vector (x, y) of falling length r, the pick-up, which is off
// its middle, adds harmonics that grow with powers of the swing: 2xy =
// r²·sin 2φ, y(3x²−y²) = r³·sin 3φ, and so on to the fifth. So a hard note barks
// and then mellows. A second mode near the seventh harmonic is the bell of the
// attack. The upper harmonics are what a chord is heard by behind a line,
// between 1 and 3 kHz.
//
// The drone is five harmonics that hold, each a pair a little out of tune
// with itself, so that it moves.
type Tone struct {
	made   [][]float32 // in pieces of toneChunk samples
	x, y   float64
	c, s   float64 // turn and shrink of each sample
	bell   [4]float64
	second float64
	third  float64
	fourth float64
	fifth  float64
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
	bellS      = 0.11
	keyRiseS   = 0.0025
	droneRiseS = 0.09
	keyLongS   = 5.0
	droneLongS = 30.0
	keyQuiet   = 5.0 // falls by e after which a tine is dropped
)

// newTine returns an electric piano's key in a layer of strength.
func newTine(key, layer int, rate float64) *Tone {
	hz := pitch.Frequency(float64(key))
	share := min(max(float64(key-36)/48, 0), 1)
	fallS := tineLowS * math.Pow(tineHighS/tineLowS, share)
	force := (float64(layer) + 0.5) / layers
	t := &Tone{second: 0.18 + 0.42*force, third: 0.12 + 0.3*force, fourth: 0.12 + 0.32*force, fifth: 0.1 + 0.32*force, rise: int(keyRiseS * rate)}
	t.x, t.c, t.s = dsp.Turn(1, hz, fallS, rate)
	if bellHz := bellRatio * hz; bellHz < 0.4*rate {
		t.bell[0], t.bell[2], t.bell[3] = dsp.Turn(0.12+0.3*force, bellHz, bellS, rate)
	}
	t.full = int(min(keyQuiet*fallS, keyLongS) * rate)
	return t
}

// droneLevels holds the levels of the drone's harmonics.
var droneLevels = [...]float64{0.6, 0.3, 0.2, 0.1, 0.05}

// newDrone returns a drone's key.
func newDrone(key int, rate float64) *Tone {
	hz := pitch.Frequency(float64(key))
	t := &Tone{rise: int(droneRiseS * rate), full: int(droneLongS * rate)}
	for i, level := range droneLevels {
		for _, beat := range []float64{-0.11, 0.14} {
			x, c, s := dsp.Turn(level/2, float64(i+1)*hz+beat*float64(i+1), 1e9, rate)
			t.drone = append(t.drone, partial{x, 0, c, s})
		}
	}
	return t
}

// toneChunk is how many samples of a tone are made at a time.
const toneChunk = 4096

// from returns samples of the tone from one on, at most n, making what is not
// yet made; fewer where a piece of it ends, none where the tone does.
func (t *Tone) from(at, n int) []float32 {
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
func (t *Tone) make(from int) []float32 {
	fresh := make([]float32, toneChunk)
	if t.drone != nil {
		t.makeDrone(fresh)
	} else {
		t.makeTine(fresh)
	}
	for i := range max(0, min(toneChunk, t.rise-from)) {
		fresh[i] *= dsp.Step(float64(from+i) / float64(t.rise))
	}
	tail := t.full / 8
	for i := max(0, t.full-tail-from); i < toneChunk; i++ {
		fresh[i] *= float32(max(t.full-1-from-i, 0)) / float32(tail)
	}
	return fresh
}

// makeDrone adds the drone's partials.
func (t *Tone) makeDrone(fresh []float32) {
	for k := 0; k+1 < len(t.drone); k += 2 { // each harmonic's pair
		p, q := t.drone[k], t.drone[k+1]
		for i := range fresh {
			p.x, p.y = p.c*p.x-p.s*p.y, p.s*p.x+p.c*p.y
			q.x, q.y = q.c*q.x-q.s*q.y, q.s*q.x+q.c*q.y
			fresh[i] += float32(p.y + q.y)
		}
		t.drone[k], t.drone[k+1] = p, q
	}
}

// makeTine makes the tine as its pick-up hears it, and its bell.
func (t *Tone) makeTine(fresh []float32) {
	x, y, u, v := t.x, t.y, t.bell[0], t.bell[1]
	c, s, bc, bs := t.c, t.s, t.bell[2], t.bell[3]
	second, third, fourth, fifth := 2*t.second, t.third, 4*t.fourth, t.fifth
	for i := range fresh {
		x, y = c*x-s*y, s*x+c*y
		u, v = bc*u-bs*v, bs*u+bc*v
		xx, yy := x*x, y*y
		fresh[i] = float32(y + second*x*y + third*y*(3*xx-yy) + fourth*x*y*(xx-yy) + fifth*y*(5*xx*xx-10*xx*yy+yy*yy) + v)
	}
	t.x, t.y, t.bell[0], t.bell[1] = x, y, u, v
}
