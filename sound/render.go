package sound

import (
	"context"
	"fmt"

	"heddle/audio"
	"heddle/exercise"
	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// Render plays the exercise into a sink, from count-in to the last chord's
// end, and returns where everything is in it. It calls the sink's Start
// once before any sample and Finish once after the last; after an error it
// calls neither again. When the context is done it returns its error within a
// block.
func Render(ctx context.Context, ex *exercise.Exercise, o Options, sink audio.Sink) (Timeline, error) {
	return render(ctx, ex, o, sink, true, Parts()...)
}

// RenderPart plays one part alone, as it is in the mix: same timing,
// same gain, no limiter. All the parts' sounds add up to the mix wherever the
// limiter leaves it alone.
func RenderPart(ctx context.Context, ex *exercise.Exercise, o Options, p Part, sink audio.Sink) (Timeline, error) {
	if p < 0 || p >= parts {
		_, err := ParsePart(p.String())
		return Timeline{}, err
	}
	return render(ctx, ex, o, sink, false, p)
}

// Gain returns the factor that brings the mix to its loudness, for
// Options.Gain, so that parts rendered one by one need not each find it.
func Gain(ctx context.Context, ex *exercise.Exercise, o Options) (float64, error) {
	b, err := newBand(ex, o)
	if err != nil {
		return 0, err
	}
	s, err := b.newStudio()
	if err != nil {
		return 0, err
	}
	return b.gain(ctx, s)
}

// gain measures the mix as far as the excerpt goes.
func (b *band) gain(ctx context.Context, s *studio) (float64, error) {
	if b.opt.Gain > 0 {
		return b.opt.Gain, nil
	}
	l := newLoudness(b.form)
	err := b.newEngine(s, b.form.warmStart(), Parts()...).run(ctx, l.end, func(bl *mixer.Block) error {
		l.hear(bl)
		return nil
	})
	return l.gain(), err
}

// warmS is how long before its head a seamless loop is played unheard: longer
// than anything rings.
const warmS = 4.0

// warmStart returns the first sample that is made.
func (f *form) warmStart() int64 {
	if !f.seamless {
		return 0
	}
	return -min(int64(warmS*float64(f.rate)), f.total)
}

// render plays some parts. Of a mix, nothing is rendered twice: what is made
// before the gain is known waits for it.
func render(ctx context.Context, ex *exercise.Exercise, o Options, sink audio.Sink, mix bool, wanted ...Part) (Timeline, error) {
	b, err := newBand(ex, o)
	if err != nil {
		return Timeline{}, err
	}
	s, err := b.newStudio()
	if err != nil {
		return Timeline{}, err
	}
	d := newDesk(b.form, mix, b.opt.Gain, sink)
	if !mix {
		if d.gain, err = b.gain(ctx, s); err != nil {
			return Timeline{}, err
		}
	}
	if err := sink.Start(audio.Format{SampleRate: b.form.rate, Frames: b.form.total}); err != nil {
		return Timeline{}, fmt.Errorf("starting sound: %w", err)
	}
	if err := b.newEngine(s, b.form.warmStart(), wanted...).run(ctx, b.form.total+int64(d.delay), func(bl *mixer.Block) error { return d.take(ctx, bl) }); err != nil {
		return Timeline{}, err
	}
	if err := sink.Finish(); err != nil {
		return Timeline{}, fmt.Errorf("finishing sound: %w", err)
	}
	return b.timeline(), nil
}

// A desk brings blocks to their loudness, guards their peaks and hands them to
// the sink. While the gain is not known it holds them back.
type desk struct {
	loud    *loudness
	gain    float64 // 0 until it is known
	held    [2][]float32
	from    int64          // of the first sample held
	limiter *audio.Limiter // nil for single parts
	delay   int
	at      int64 // of the next sample after the limiter
	total   int64
	fade    int64 // samples over which the end of the file falls to nothing
	sink    audio.Sink
	frames  []float32
}

// endFadeS is how long the end of a file takes to fall to nothing.
const endFadeS = 0.4

// newDesk returns a desk for a form.
func newDesk(f *form, limited bool, gain float64, sink audio.Sink) *desk {
	d := &desk{loud: newLoudness(f), gain: gain, total: f.total, sink: sink, frames: make([]float32, 2*mixer.BlockLength)}
	if limited {
		d.limiter = audio.NewLimiter(float64(f.rate))
		d.delay = d.limiter.Ahead
	}
	if !f.seamless {
		d.fade = int64(endFadeS * float64(f.rate))
	}
	return d
}

// take takes a block.
func (d *desk) take(ctx context.Context, b *mixer.Block) error {
	if d.gain > 0 {
		return d.give(b)
	}
	if d.held[0] == nil {
		d.from = b.From
		for side := range d.held {
			d.held[side] = make([]float32, 0, d.loud.end-b.From+mixer.BlockLength)
		}
	}
	d.held[0], d.held[1] = append(d.held[0], b.Left...), append(d.held[1], b.Right...)
	d.loud.hear(b)
	if b.From+int64(len(b.Left)) < d.loud.end {
		return nil
	}
	d.gain = d.loud.gain()
	left, right := d.held[0], d.held[1]
	d.held = [2][]float32{}
	for at := 0; at < len(left); at += mixer.BlockLength {
		end := min(at+mixer.BlockLength, len(left))
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := d.give(&mixer.Block{From: d.from + int64(at), Left: left[at:end], Right: right[at:end]}); err != nil {
			return err
		}
	}
	return nil
}

// give hands a block to the sink.
func (d *desk) give(b *mixer.Block) error {
	dsp.Scale(b.Left, d.gain)
	dsp.Scale(b.Right, d.gain)
	if d.limiter != nil {
		d.limiter.Limit(b.Left, b.Right)
	}
	d.at = b.From - int64(d.delay)
	from := int(min(max(0, -d.at), int64(len(b.Left))))
	to := int(min(int64(len(b.Left)), d.total-d.at))
	if from >= to {
		return nil
	}
	left, right := b.Left[from:to], b.Right[from:to]
	frames := d.frames[:2*len(left)]
	for i, x := range left {
		frames[2*i], frames[2*i+1] = x, right[i]
	}
	d.fadeEnd(frames, d.at+int64(from))
	if err := d.sink.Write(frames); err != nil {
		return fmt.Errorf("writing sound: %w", err)
	}
	return nil
}

// fadeEnd brings the end of the file to nothing.
func (d *desk) fadeEnd(frames []float32, at int64) {
	if at+int64(len(frames)/2) <= d.total-d.fade {
		return
	}
	for i := range len(frames) / 2 {
		if left := d.total - at - int64(i) - 1; left < d.fade {
			g := dsp.Step(float64(left) / float64(d.fade))
			frames[2*i] *= g
			frames[2*i+1] *= g
		}
	}
}
