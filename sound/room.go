package sound

import "math"

// A room is the reverberation of a small studio: four delay lines that feed
// each other through a Hadamard matrix (Jot and Chaigne 1991), each losing
// what makes the whole fall by 60 dB in roomS, and its highs sooner. It runs
// at half the sample rate, which its damping makes no difference to.
type room struct {
	lines [roomLines]delayLine
	half  float32 // first sample sent of the pair under way
	odd   bool
	left  [4]float32 // the last four samples of each side, the newest last
	right [4]float32
}

// A delayLine is a ring of samples.
type delayLine struct {
	ring []float32
	at   int
	keep float32 // gain of one time through
	damp float32 // share of the last sample in each
	last float32
}

// The room's figures.
const (
	roomLines = 4
	roomS     = 0.55 // 60 dB decay: a treated room of 60 m³, as for a small studio
	roomDamp  = 0.35
)

// roomDelaysS holds the delays in seconds: 5 to 11 m of extra path, chosen
// without common factors so that echoes do not pile up.
var roomDelaysS = [roomLines]float64{0.0157, 0.0211, 0.0263, 0.0331}

// newRoom returns an empty room.
func newRoom(rate float64) *room {
	r := &room{}
	for i, s := range roomDelaysS {
		n := int(s * rate / 2)
		r.lines[i] = delayLine{
			ring: make([]float32, n),
			keep: float32(math.Pow(10, -3*s/roomS) * (1 - roomDamp)),
			damp: roomDamp,
		}
	}
	return r
}

// sound adds what the room gives back for what was sent to it. Between its own
// samples it gives a cubic through the four round them.
func (r *room) sound(send, left, right []float32) {
	left, right = left[:len(send)], right[:len(send)]
	p, q := r.left, r.right
	for i, x := range send {
		if r.odd {
			left[i] += (9*(p[1]+p[2]) - p[0] - p[3]) * (1.0 / 16)
			right[i] += (9*(q[1]+q[2]) - q[0] - q[3]) * (1.0 / 16)
			a, b := r.step((r.half + x) / 2)
			p = [4]float32{p[1], p[2], p[3], a}
			q = [4]float32{q[1], q[2], q[3], b}
		} else {
			r.half = x
			left[i] += p[1]
			right[i] += q[1]
		}
		r.odd = !r.odd
	}
	r.left, r.right = p, q
}

// breath is far below hearing. It keeps an emptied room from numbers so small
// that processors take a hundred times as long over them.
const breath = 1e-18

// step is one sample of the network at half the rate.
func (r *room) step(x float32) (left, right float32) {
	x += breath
	k, l, m, n := &r.lines[0], &r.lines[1], &r.lines[2], &r.lines[3]
	a, b, c, d := k.read(), l.read(), m.read(), n.read()
	p, q, s, t := (a+b)*0.5, (a-b)*0.5, (c+d)*0.5, (c-d)*0.5
	k.write(x + (p + s))
	l.write(x + (q + t))
	m.write(x + (p - s))
	n.write(x + (q - t))
	return a - c, b - d
}

// read returns what comes out of the line, damped.
func (l *delayLine) read() float32 {
	l.last = l.ring[l.at]*l.keep + l.last*l.damp
	return l.last
}

// write puts a sample into the line in place of what came out.
func (l *delayLine) write(x float32) {
	l.ring[l.at] = x
	if l.at++; l.at == len(l.ring) {
		l.at = 0
	}
}
