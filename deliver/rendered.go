package deliver

import (
	"cmp"
	"io"

	"heddle/audio"
	"heddle/sound"
)

// rendered writes the mix into an encoder.
func rendered(encode func(job, audio.Tags) (audio.Sink, error)) func(job) error {
	return func(j job) error {
		sink, err := encode(j, audio.Tags{Title: cmp.Or(j.choices.Title, j.exercise.Sentence), Tempo: j.exercise.Tempo})
		if err != nil {
			return err
		}
		if held, ok := sink.(io.Closer); ok {
			defer held.Close() // after Finish there is nothing left to fail
		}
		if j.progress != nil {
			sink = &counted{Sink: sink, report: j.progress}
		}
		_, err = sound.Render(j.ctx, j.exercise, j.choices.Sound, sink)
		return err
	}
}

// A counted sink reports how much of the sound has passed.
type counted struct {
	audio.Sink
	report       func(percent int)
	total, done  int64
	lastReported int64
}

func (c *counted) Start(f audio.Format) error {
	c.total = f.Frames
	return c.Sink.Start(f)
}

func (c *counted) Write(frames []float32) error {
	c.done += int64(len(frames) / 2)
	if percent := 100 * c.done / max(1, c.total); percent > c.lastReported {
		c.lastReported = percent
		c.report(int(percent))
	}
	return c.Sink.Write(frames)
}
