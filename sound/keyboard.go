package sound

import (
	"cmp"
	"math"
	"slices"
)

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
