package mixer

import "math"

// A Room is the reverberation of a small studio: four delay lines that feed
// each other through a Hadamard matrix (Jot and Chaigne 1991), each losing
// what makes the whole fall by 60 dB in roomS, and its highs sooner. It runs
// at half the sample rate, which its damping makes no difference to.
type Room struct {
	lines [roomLines]delayLine
	half  float32 // first sample sent of the pair under way
	odd   bool
	left  [4]float32 // the last four samples of each side, the newest last
	right [4]float32
}

// A delayLine is a ring of samples.
type delayLine struct {
	ring   *[roomMask + 1]float32
	at     int // of the sample that comes out, counted on without end
	length int
	keep   float32 // gain of one time through
	last   float32 // sample that came out, damped
}

// The room's figures.
const (
	roomLines = 4
	roomMask  = 2047 // a power of two less one, so that a ring needs no test for its end; 33 ms at half of 96 kHz
	roomS     = 0.55 // 60 dB decay: a treated room of 60 m³, as for a small studio
	roomDamp  = 0.35 // share of the last sample in each
)

// roomDelaysS holds the delays in seconds: 5 to 11 m of extra path, chosen
// without common factors so that echoes do not pile up.
var roomDelaysS = [roomLines]float64{0.0157, 0.0211, 0.0263, 0.0331}

// NewRoom returns an empty room.
func NewRoom(rate float64) *Room {
	r := &Room{}
	for i, s := range roomDelaysS {
		n := int(s * rate / 2)
		r.lines[i] = delayLine{
			ring: new([roomMask + 1]float32), length: n,
			keep: float32(math.Pow(10, -3*s/roomS) * (1 - roomDamp)),
		}
	}
	return r
}

// Sound adds what the room gives back for what was sent to it. Between its own
// samples it gives a cubic through the four round them.
func (r *Room) Sound(send, left, right []float32) {
	left, right = left[:len(send)], right[:len(send)]
	p0, p1, p2, p3 := r.left[0], r.left[1], r.left[2], r.left[3]
	q0, q1, q2, q3 := r.right[0], r.right[1], r.right[2], r.right[3]
	half, odd := r.half, r.odd
	for i, x := range send {
		if odd {
			left[i] += (9*(p1+p2) - (p0 + p3)) * (1.0 / 16)
			right[i] += (9*(q1+q2) - (q0 + q3)) * (1.0 / 16)
			p0, p1, p2, q0, q1, q2 = p1, p2, p3, q1, q2, q3
			p3, q3 = r.step((half + x) / 2)
		} else {
			half = x
			left[i] += p1
			right[i] += q1
		}
		odd = !odd
	}
	r.left, r.right = [4]float32{p0, p1, p2, p3}, [4]float32{q0, q1, q2, q3}
	r.half, r.odd = half, odd
}

// breath is far below hearing. It keeps an emptied room from numbers so small
// that processors take a hundred times as long over them.
const breath = 1e-18

// step is one sample of the network at half the rate.
func (r *Room) step(x float32) (left, right float32) {
	x += breath
	k, l, m, n := &r.lines[0], &r.lines[1], &r.lines[2], &r.lines[3]
	a, b, c, d := k.out(), l.out(), m.out(), n.out()
	p, q, s, t := x+(a+b)*0.5, x+(a-b)*0.5, (c+d)*0.5, (c-d)*0.5
	k.in(p + s)
	l.in(q + t)
	m.in(p - s)
	n.in(q - t)
	return a - c, b - d
}

// out returns what comes out of the line, damped.
func (l *delayLine) out() float32 {
	l.last = l.ring[l.at&roomMask]*l.keep + l.last*roomDamp
	return l.last
}

// in puts a sample into the line.
func (l *delayLine) in(x float32) {
	l.ring[(l.at+l.length)&roomMask] = x
	l.at++
}
