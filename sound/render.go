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

// warmS is how long before its head a seamless loop is played unheard: longer
// than anything rings.
const warmS = 4.0

// render plays some parts.
func render(ctx context.Context, ex *exercise.Exercise, o Options, sink audio.Sink, limited bool, wanted ...Part) (Timeline, error) {
	b, err := newBand(ex, o)
	if err != nil {
		return Timeline{}, err
	}
	s := b.newStudio()
	gain, err := b.gain(ctx, s)
	if err != nil {
		return Timeline{}, err
	}
	if err := sink.Start(audio.Format{SampleRate: b.form.rate, Frames: b.form.total}); err != nil {
		return Timeline{}, fmt.Errorf("starting sound: %w", err)
	}
	start := int64(0)
	if b.form.seamless {
		start = -min(int64(warmS*float64(b.form.rate)), b.form.total)
	}
	desk := newDesk(b.form, limited, sink)
	if err := b.newEngine(s, start, gain, wanted...).run(ctx, b.form.total+int64(desk.delay), desk.take); err != nil {
		return Timeline{}, err
	}
	if err := sink.Finish(); err != nil {
		return Timeline{}, fmt.Errorf("finishing sound: %w", err)
	}
	return b.timeline(), nil
}

// A desk guards the level of blocks and hands them to the sink.
type desk struct {
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
func newDesk(f *form, limited bool, sink audio.Sink) *desk {
	d := &desk{total: f.total, sink: sink, frames: make([]float32, 2*mixer.BlockLength)}
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
func (d *desk) take(b *mixer.Block) error {
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
