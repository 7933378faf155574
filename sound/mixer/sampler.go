package mixer

import (
	"cmp"
	"slices"
)

// A Hit is one sound of a sampler at a moment.
type Hit struct {
	At    int64
	Sound int // of the sampler's sounds
	Gain  float32
}

// A Sample is a sound that a sampler can play.
type Sample struct {
	Samples []float32
	Place   Place
	Choke   int // a sound of the same choke stops the one before; 0 for none
}

// A Sampler plays sounds that were made beforehand.
type Sampler struct {
	sounds []Sample
	chokeN int // samples in which a choked sound fades

	next []Hit
	live []voice
}

// A voice is a sound under way.
type voice struct {
	Hit
	done int
	stop int // samples until a choked voice has faded; −1 while it is not choked
}

// chokeS is how fast a choked sound fades: a hi-hat closing.
const chokeS = 0.006

// NewSampler returns a sampler at rest.
func NewSampler(sounds []Sample, rate float64) *Sampler {
	return &Sampler{sounds: sounds, chokeN: int(chokeS * rate)}
}

// Queue takes in hits to play, but for those before from.
func (s *Sampler) Queue(hits []Hit, from int64) {
	for _, h := range hits {
		if h.At >= from {
			s.next = append(s.next, h)
		}
	}
	slices.SortStableFunc(s.next, func(a, b Hit) int { return cmp.Compare(a.At, b.At) })
}

// Play adds a block of the sampler to the mix.
func (s *Sampler) Play(b *Block) {
	end := b.From + int64(len(b.Left))
	for len(s.next) > 0 && s.next[0].At < end {
		h := s.next[0]
		s.next = s.next[1:]
		s.choke(b, h)
		s.live = append(s.live, voice{Hit: h, stop: -1})
	}
	for i := range s.live {
		s.sound(b, &s.live[i], end)
	}
	s.live = slices.DeleteFunc(s.live, func(v voice) bool { return v.stop == 0 || v.done == len(s.sounds[v.Sound].Samples) })
}

// Choke stops what a hit stops, after playing it up to that moment.
func (s *Sampler) choke(b *Block, h Hit) {
	group := s.sounds[h.Sound].Choke
	if group == 0 {
		return
	}
	for i := range s.live {
		if v := &s.live[i]; s.sounds[v.Sound].Choke == group && v.stop < 0 {
			s.sound(b, v, h.At)
			v.stop = s.chokeN
		}
	}
}

// Sound adds a voice to the block up to a moment.
func (s *Sampler) sound(b *Block, v *voice, until int64) {
	snd := &s.sounds[v.Sound]
	at := v.At + int64(v.done) // where the voice's next sample belongs
	n := min(len(snd.Samples)-v.done, int(until-at))
	if n <= 0 {
		return
	}
	start := int(at - b.From)
	pl := snd.Place.scaled(v.Gain)
	if v.stop < 0 {
		b.addAt(start, snd.Samples[v.done:v.done+n], pl)
		v.done += n
		return
	}
	n = min(n, v.stop)
	for i := range n {
		g := float32(v.stop-i-1) / float32(s.chokeN)
		b.addAt(start+i, snd.Samples[v.done+i:v.done+i+1], pl.scaled(g))
	}
	v.done += n
	v.stop -= n
}
