// Package keyboard sounds the electric piano that comps and the keys of a drone.
package keyboard

import (
	"cmp"
	"math"
	"slices"

	"heddle/sound/mixer"
)

// A Note is one key pressed and let go.
type Note struct {
	At, Off int64
	Key     int
	Force   float64
}

// A Keyboard plays keys: the electric piano or the drone.
type Keyboard struct {
	drone bool
	rate  float64
	place mixer.Place
	tones map[int]*Tone // by key·layers + layer
	next  []Note
	live  []pressed
	mono  []float32
}

// A pressed is a key that sounds.
type pressed struct {
	Note
	tone  *Tone
	done  int
	gain  float32
	falls float32 // gain left of the damper, 1 while held
}

// The dampers.
const (
	damperS      = 0.05 // fall by e once let go
	droneDamperS = 0.12
	damped       = 1e-4 // −80 dB: dropped
)

// New returns a keyboard at rest. Tones, at first empty, keeps what is
// made, for this keyboard and others of the same rate and kind.
func New(drone bool, rate float64, pl mixer.Place, tones map[int]*Tone) *Keyboard {
	return &Keyboard{drone: drone, rate: rate, place: pl, tones: tones, mono: make([]float32, mixer.BlockLength)}
}

// Queue takes in notes to play, but for those that begin before from.
func (k *Keyboard) Queue(notes []Note, from int64) {
	for _, n := range notes {
		if n.At >= from {
			k.next = append(k.next, n)
		}
	}
	slices.SortStableFunc(k.next, func(a, b Note) int { return cmp.Compare(a.At, b.At) })
}

// press starts a note.
func (k *Keyboard) press(n Note) {
	force := min(max(n.Force, 0), 0.999)
	layer := int(force * layers)
	if k.drone {
		layer = 0
	}
	id := n.Key*layers + layer
	t := k.tones[id]
	if t == nil {
		if t = newTine(n.Key, layer, k.rate); k.drone {
			t = newDrone(n.Key, k.rate)
		}
		k.tones[id] = t
	}
	k.live = append(k.live, pressed{Note: n, tone: t, gain: float32(0.25 + 0.75*force), falls: 1})
}

// Play adds a block of the keyboard to the mix.
func (k *Keyboard) Play(b *mixer.Block) {
	end := b.From + int64(len(b.Left))
	for len(k.next) > 0 && k.next[0].At < end {
		k.press(k.next[0])
		k.next = k.next[1:]
	}
	if len(k.live) == 0 {
		return
	}
	mono := k.mono[:len(b.Left)]
	clear(mono)
	for i := range k.live {
		k.sound(mono, b.From, &k.live[i])
	}
	k.live = slices.DeleteFunc(k.live, func(p pressed) bool { return p.falls < damped || p.done >= p.tone.full })
	b.Add(mono, k.place)
}

// sound adds one key to a block that begins at a sample.
func (k *Keyboard) sound(mono []float32, from int64, p *pressed) {
	start := max(0, int(p.At-from))
	held := min(len(mono), max(start, int(p.Off-from)))
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
func (k *Keyboard) release(out, tone []float32, p *pressed) {
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
