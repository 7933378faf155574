package sound

import (
	"context"
	"math"

	"heddle/audio"
)

// A player sounds one part.
//
// feed takes in what the part plays in a pass, but for what begins before
// from; passes come in order. play adds the part to a block; blocks follow
// one another without gaps, and each pass has been fed before the block in
// which the pass before it begins.
type player interface {
	feed(p pass, from int64)
	play(b *block)
}

// A studio holds the sounds that are made once for a render.
type studio struct {
	clicks []sample
	kit    []sample
	words  []sample
	tones  map[int]*keyTone
}

// The parts' usual levels in dB, set so that at 0 LU the line stands a little
// above the band (measured on the package's demo exercises).
var usualDB = [parts]float64{Line: 0, Chords: -18, Bass: -1.5, Drums: -5.5, Click: -7, Voice: 0}

// The parts' shares of room. The bass, the click and the voice stay dry.
var usualSend = [parts]float64{Line: 0.16, Chords: 0.22, Drums: 0.2}

// place returns where a part stands.
func (b *band) place(p Part) place { return placeOf(b.opt.Mix[p], usualDB[p], usualSend[p]) }

// newStudio makes the sounds.
func (b *band) newStudio() *studio {
	rate := float64(b.form.rate)
	s := &studio{clicks: newClicks(b.place(Click), rate), tones: map[int]*keyTone{}}
	if b.opt.Vamp.drums() && !b.opt.Mix[Drums].Mute {
		s.kit = newKit(b.opt.Vamp.pieces(), b.place(Drums), rate)
	}
	for _, w := range b.voice.words {
		s.words = append(s.words, sample{samples: w.samples, place: b.place(Voice)})
	}
	return s
}

// An engine makes the sound of some parts, block by block.
type engine struct {
	band    *band
	players []player
	room    *room
	fed     int // number of the next pass to feed
	start   int64
	block   block
}

// newEngine returns an engine that will begin at a sample, with a gain over all.
func (b *band) newEngine(s *studio, start int64, gain float32, wanted ...Part) *engine {
	e := &engine{band: b, room: newRoom(float64(b.form.rate)), start: start}
	e.block = block{
		from: start, left: make([]float32, blockLength), right: make([]float32, blockLength), send: make([]float32, blockLength),
	}
	for _, p := range wanted {
		if !b.opt.Mix[p].Mute {
			if pl := b.player(p, s, start, gain); pl != nil {
				e.players = append(e.players, pl)
			}
		}
	}
	for {
		p, ok := b.form.pass(e.fed - 1)
		if !ok || p.end < float64(start) {
			break
		}
		e.fed--
	}
	return e
}

// player returns a part's player; nil where the part has nothing to play.
func (b *band) player(p Part, s *studio, start int64, gain float32) player {
	rate, pl := float64(b.form.rate), b.place(p).scaled(gain)
	switch p {
	case Line:
		in := b.ex.Instrument
		open := make([]float64, in.Strings())
		for i := range open {
			open[i] = b.openKey(i + 1)
		}
		return newPlucked(strungFor(in), open, lengthOf(in), rate, pl, b.lineNotes)
	case Chords:
		k := newKeyboard(b.opt.Vamp == DroneVamp, rate, pl, b.keyNotes)
		k.tones = s.tones
		return k
	case Bass:
		return newPlucked(electricBass, bassStrings, bassScaleMM, rate, pl, b.bassNotes)
	case Drums:
		if s.kit != nil {
			return newSampler(s.kit, gain, rate, b.drumHits)
		}
	case Click:
		c := newSampler(s.clicks, gain, rate, b.passClicks)
		if start <= 0 {
			c.queue = b.countInClicks()
		}
		return c
	case Voice:
		if len(s.words) > 0 {
			return newSampler(s.words, gain, rate, b.wordHits)
		}
	}
	return nil
}

// run makes sound up to a sample and hands over each block. It stops when the
// context is done or when take returns an error.
func (e *engine) run(ctx context.Context, to int64, take func(*block) error) error {
	for e.block.from < to {
		if err := ctx.Err(); err != nil {
			return err
		}
		n := int(min(blockLength, to-e.block.from))
		b := e.block
		b.left, b.right, b.send = b.left[:n], b.right[:n], b.send[:n]
		clear(b.left)
		clear(b.right)
		clear(b.send)
		e.feed(b.from + int64(n))
		for _, p := range e.players {
			p.play(&b)
		}
		e.room.sound(b.send, b.left, b.right)
		e.block.from += int64(n)
		if err := take(&b); err != nil {
			return err
		}
	}
	return nil
}

// feed feeds every pass that is under way before a sample, and the one after.
func (e *engine) feed(until int64) {
	for {
		if before, ok := e.band.form.pass(e.fed - 1); ok && before.start > float64(until) {
			return
		}
		p, ok := e.band.form.pass(e.fed)
		if !ok {
			return
		}
		for _, pl := range e.players {
			pl.feed(p, e.start)
		}
		e.fed++
	}
}

// The mix's loudness.
const (
	targetLUFS = -16.0
	excerptS   = 8.0 // of the first pass, by which the gain is found
	guardDB    = 0.6 // how much of the excerpt's highest peak the limiter may take
)

// gain finds the mix's one gain from an excerpt of the first pass: up to
// −16 LUFS, but no further than the limiter can stand guard.
func (b *band) gain(ctx context.Context, s *studio) (float32, error) {
	first := b.form.passes[0]
	start := round(first.start)
	end := min(round(first.end), start+int64(excerptS*float64(b.form.rate)))
	m := audio.NewMeter(b.form.rate)
	err := b.newEngine(s, start, 1, Parts()...).run(ctx, end, func(bl *block) error {
		m.Write(bl.left, bl.right)
		return nil
	})
	if err != nil {
		return 0, err
	}
	dB := min(targetLUFS-m.Loudness(), audio.CeilingDB+guardDB-m.TruePeak())
	if math.IsInf(dB, 0) || math.IsNaN(dB) {
		return 1, nil
	}
	return float32(math.Pow(10, dB/20)), nil
}
