package sound

import (
	"cmp"
	"slices"
)

// A hit is one sound of a sampler at a moment.
type hit struct {
	at    int64
	sound int // of the sampler's sounds
	gain  float32
}

// A sample is a sound that a sampler can play.
type sample struct {
	samples []float32
	place   place
	choke   int // a sound of the same choke stops the one before; 0 for none
}

// A sampler plays sounds that were made beforehand.
type sampler struct {
	sounds []sample
	hits   func(pass) []hit
	level  float32
	chokeN int // samples in which a choked sound fades

	queue []hit
	live  []voice
}

// A voice is a sound under way.
type voice struct {
	hit
	done int
	stop int // samples until a choked voice has faded; −1 while it is not choked
}

// chokeS is how fast a choked sound fades: a hi-hat closing.
const chokeS = 0.006

// newSampler returns a sampler at rest.
func newSampler(sounds []sample, level float32, rate float64, hits func(pass) []hit) *sampler {
	return &sampler{sounds: sounds, level: level, hits: hits, chokeN: int(chokeS * rate)}
}

// feed takes in the hits of a pass.
func (s *sampler) feed(p pass, from int64) {
	for _, h := range s.hits(p) {
		if h.at >= from {
			s.queue = append(s.queue, h)
		}
	}
	slices.SortStableFunc(s.queue, func(a, b hit) int { return cmp.Compare(a.at, b.at) })
}

// play adds a block of the sampler to the mix.
func (s *sampler) play(b *block) {
	end := b.from + int64(len(b.left))
	for len(s.queue) > 0 && s.queue[0].at < end {
		h := s.queue[0]
		s.queue = s.queue[1:]
		s.choke(b, h)
		s.live = append(s.live, voice{hit: h, stop: -1})
	}
	for i := range s.live {
		s.sound(b, &s.live[i], end)
	}
	s.live = slices.DeleteFunc(s.live, func(v voice) bool { return v.stop == 0 || v.done == len(s.sounds[v.sound].samples) })
}

// choke stops what a hit stops, after playing it up to that moment.
func (s *sampler) choke(b *block, h hit) {
	group := s.sounds[h.sound].choke
	if group == 0 {
		return
	}
	for i := range s.live {
		if v := &s.live[i]; s.sounds[v.sound].choke == group && v.stop < 0 {
			s.sound(b, v, h.at)
			v.stop = s.chokeN
		}
	}
}

// sound adds a voice to the block up to a moment.
func (s *sampler) sound(b *block, v *voice, until int64) {
	snd := &s.sounds[v.sound]
	at := v.at + int64(v.done) // where the voice's next sample belongs
	n := min(len(snd.samples)-v.done, int(until-at))
	if n <= 0 {
		return
	}
	start := int(at - b.from)
	pl := snd.place.scaled(v.gain * s.level)
	if v.stop < 0 {
		b.addAt(start, snd.samples[v.done:v.done+n], pl)
		v.done += n
		return
	}
	n = min(n, v.stop)
	for i := range n {
		g := float32(v.stop-i-1) / float32(s.chokeN)
		b.addAt(start+i, snd.samples[v.done+i:v.done+i+1], pl.scaled(g))
	}
	v.done += n
	v.stop -= n
}
