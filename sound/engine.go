package sound

import (
	"context"
	"math"

	"heddle/sound/drumkit"
	"heddle/sound/keyboard"
	"heddle/sound/mixer"
	"heddle/sound/pluck"
)

// A player sounds one part.
//
// Feed takes in what the part plays in a pass, but for what begins before
// from; passes come in order. Play adds the part to a block; blocks follow
// one another without gaps, and each pass has been fed before the block in
// which the pass before it begins.
type player struct {
	feed func(p pass, from int64)
	play func(*mixer.Block)
}

// A studio holds the sounds that are made once for a render.
type studio struct {
	clicks []mixer.Sample
	kit    []mixer.Sample
	words  []mixer.Sample
	tones  map[int]*keyboard.Tone
}

// The parts' usual levels in dB, set so that at 0 LU the line is a little
// louder than the band (measured on the package's demo exercises).
var usualDB = [parts]float64{Line: 0, Chords: -15, Bass: -1, Drums: -1, Click: -7, Voice: 5}

// The parts' shares of room. The bass, the click and the voice stay dry.
var usualSend = [parts]float64{Line: 0.16, Chords: 0.22, Drums: 0.2}

// place returns a part's place in the mix.
func (b *band) place(p Part) mixer.Place {
	strip, dB := b.opt.Mix[p], usualDB[p]
	if p == Line {
		dB += b.opt.Articulation.levelDB()
	}
	return mixer.PlaceAt(dB+strip.LevelDB, strip.Pan, usualSend[p])
}

// newStudio makes the sounds.
func (b *band) newStudio() (*studio, error) {
	rate := float64(b.form.rate)
	s := &studio{clicks: newClicks(b.place(Click), rate), tones: map[int]*keyboard.Tone{}}
	if b.opt.Vamp.drums() && !b.opt.Mix[Drums].Mute {
		kit, err := drumkit.NewKit(b.opt.Vamp.pieces(), b.place(Drums), b.form.rate)
		if err != nil {
			return nil, err
		}
		s.kit = kit
	}
	for _, w := range b.voice.words {
		s.words = append(s.words, mixer.Sample{Samples: w.samples, Place: b.place(Voice)})
	}
	return s, nil
}

// An engine makes the sound of some parts, block by block.
type engine struct {
	band    *band
	players []player
	room    *mixer.Room
	fed     int // number of the next pass to feed
	start   int64
	block   mixer.Block
}

// newEngine returns an engine that will begin at a sample.
func (b *band) newEngine(s *studio, start int64, wanted ...Part) *engine {
	e := &engine{band: b, room: mixer.NewRoom(float64(b.form.rate)), start: start}
	e.block = mixer.Block{
		From: start, Left: make([]float32, mixer.BlockLength), Right: make([]float32, mixer.BlockLength), Send: make([]float32, mixer.BlockLength),
	}
	for _, p := range wanted {
		if !b.opt.Mix[p].Mute {
			if pl := b.player(p, s, start); pl.play != nil {
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

// player returns a part's player; the zero player where the part has nothing to play.
func (b *band) player(p Part, s *studio, start int64) player {
	rate, pl := float64(b.form.rate), b.place(p)
	switch p {
	case Line:
		in := b.ex.Instrument
		open := make([]float64, in.Strings())
		for i := range open {
			open[i] = b.openKey(i + 1)
		}
		line := pluck.New(b.opt.Tone.strung(), open, pluck.StringMM(in), rate, pl)
		return player{func(p pass, from int64) { line.Queue(b.lineNotes(p), from) }, line.Play}
	case Chords:
		k := keyboard.New(b.opt.Vamp == DroneVamp, rate, pl, s.tones)
		return player{func(p pass, from int64) { k.Queue(b.keyNotes(p), from) }, k.Play}
	case Bass:
		bass := pluck.New(pluck.BassGuitar, bassStrings, bassScaleMM, rate, pl)
		return player{func(p pass, from int64) { bass.Queue(b.bassNotes(p), from) }, bass.Play}
	case Drums:
		return b.samples(s.kit, b.drumHits, nil)
	case Click:
		var before []mixer.Hit
		if start <= 0 {
			before = b.countInClicks()
		}
		return b.samples(s.clicks, b.passClicks, before)
	case Voice:
		return b.samples(s.words, b.wordHits, nil)
	}
	return player{}
}

// samples returns a player of made sounds, which plays some hits before those
// of its passes.
func (b *band) samples(sounds []mixer.Sample, hits func(pass) []mixer.Hit, before []mixer.Hit) player {
	if len(sounds) == 0 {
		return player{}
	}
	s := mixer.NewSampler(sounds, float64(b.form.rate))
	s.Queue(before, math.MinInt64)
	return player{func(p pass, from int64) { s.Queue(hits(p), from) }, s.Play}
}

// run makes sound up to a sample and hands over each block. It stops when the
// context is done or when take returns an error.
func (e *engine) run(ctx context.Context, to int64, take func(*mixer.Block) error) error {
	for e.block.From < to {
		if err := ctx.Err(); err != nil {
			return err
		}
		n := int(min(mixer.BlockLength, to-e.block.From))
		b := e.block
		b.Left, b.Right, b.Send = b.Left[:n], b.Right[:n], b.Send[:n]
		clear(b.Left)
		clear(b.Right)
		clear(b.Send)
		e.feed(b.From + int64(n))
		for _, p := range e.players {
			p.play(&b)
		}
		e.room.Sound(b.Send, b.Left, b.Right)
		e.block.From += int64(n)
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
