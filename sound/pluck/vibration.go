package pluck

import (
	"heddle/pitch"
	"heddle/sound/dsp"
)

// A vibration is one sounding of one string. A string swings in two planes:
// up and down, which the bridge takes in quickly, and along the top, which
// lives longer and is a hair out of tune with the first. So a note falls fast
// and then slowly (Weinreich 1977; Karjalainen, Välimäki and Tolonen 1998).
type vibration struct {
	planes []plane
	loops  []loop
	rate   float64

	push    []float32 // what the pick or finger puts in, from pushed on
	pushed  int
	key     float64 // what sounds now, in MIDI keys, not whole while the pitch moves
	playing bool
	fade    int // samples left once damped; 0 while held
	faded   int // samples the fade takes in all
	glide   glide
}

// A plane is how a string swings in one direction.
type plane struct {
	level float32 // of what the pick puts in
	floor float64 // of losses, as a factor of the string's
	above float64 // losses above the floor, as a factor
	cents float64 // against the note
}

// losses returns what a string loses in the plane.
func (p plane) losses(l losses) losses {
	return losses{l.floor * p.floor, l.plateau * p.above, l.corner}
}

// newVibration returns a string at rest that sounds no lower than a key.
func newVibration(lowestKey, rate float64, planes []plane) *vibration {
	v := &vibration{rate: rate, planes: planes, loops: make([]loop, len(planes))}
	for i := range v.loops {
		v.loops[i] = newLoop(lowestKey, rate)
	}
	return v
}

// start sets the string going on a key with what is pushed into it. B is its
// inharmonicity.
func (v *vibration) start(key float64, l losses, b float64, push []float32) {
	v.push, v.pushed = push, 0
	v.key, v.playing, v.fade, v.glide = key, true, 0, glide{}
	for i := range v.loops {
		v.loops[i].start(v.hz(i), v.planes[i].losses(l), b)
	}
}

// hz returns where one plane sounds for the key.
func (v *vibration) hz(loop int) float64 { return pitch.Frequency(v.key + v.planes[loop].cents/100) }

// damp makes the string fall silent within the given time. The hand that
// damps it takes the sound away along a smooth step; were the loop's own gain
// lowered, a low string would fall by half its size in one period and click.
func (v *vibration) damp(seconds float64) {
	n := max(int(seconds*v.rate), 2)
	if !v.playing || v.fade > 0 && v.fade <= n {
		return
	}
	if v.fade > 0 { // struck again while it was being damped: the same step, faster
		v.fade, v.faded = v.fade*n/v.faded, n
		return
	}
	v.fade, v.faded = n, n
}

// sound adds the string's next samples to out.
func (v *vibration) sound(out []float32) {
	for len(out) > 0 && v.playing {
		n := v.stretch(len(out))
		moving := v.glide.left > 0
		if moving {
			n = v.moveOn(n)
		}
		push := v.push[v.pushed:]
		push = push[:min(n, len(push))]
		v.pushed += len(push)
		for i := range v.loops {
			l := &v.loops[i]
			var made []float32
			if moving {
				made = l.travelTo(l.spanOf(v.hz(i)), n)
			} else {
				made = l.travel(n)
			}
			for j, x := range push {
				made[j] += x * v.planes[i].level
			}
			if v.fade > 0 {
				v.fadeInto(out[:n], made)
			} else {
				mixIn(out[:n], made)
			}
		}
		if v.fade > 0 {
			v.fade -= n
			v.playing = v.fade > 0
		}
		out = out[n:]
	}
}

// stretch returns how many of n samples can be made in one go. While
// something is pushed in, that is less than a period: it must be there before
// it comes round.
func (v *vibration) stretch(n int) int {
	for i := range v.loops {
		n = min(n, v.loops[i].room())
		if v.pushed < len(v.push) {
			n = min(n, len(v.push)-v.pushed, v.loops[i].lag)
		}
	}
	if v.fade > 0 {
		n = min(n, v.fade)
	}
	return n
}

// mixIn adds b to a.
func mixIn(a, b []float32) {
	b = b[:len(a)]
	for i := range a {
		a[i] += b[i]
	}
}

// fadeInto adds what a damped string still sounds, along a smooth step.
func (v *vibration) fadeInto(out, made []float32) {
	dx := 1 / float32(v.faded)
	x := float32(v.fade) * dx
	for i, y := range made {
		x -= dx
		out[i] += y * x * x * (3 - 2*x)
	}
}

// A glide is a pitch on its way from one key to another along a smooth step.
type glide struct {
	from, to     float64
	left, length int // samples
}

// moveTo makes the pitch move to a key over n samples.
func (v *vibration) moveTo(key float64, n int) {
	v.glide = glide{from: v.key, to: key, left: max(n, 1), length: max(n, 1)}
}

// moveRun is how many samples the pitch takes a straight way through.
const moveRun = 32

// moveOn moves the key on by the next few of n samples and returns how many.
func (v *vibration) moveOn(n int) int {
	g := &v.glide
	n = min(n, moveRun, g.left)
	g.left -= n
	v.key = g.to
	if g.left > 0 {
		v.key = g.from + (g.to-g.from)*float64(dsp.Step(1-float64(g.left)/float64(g.length)))
	}
	return n
}
