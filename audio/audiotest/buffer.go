// Package audiotest holds what tests of sound share.
package audiotest

import (
	"bytes"
	"errors"
	"heddle/audio"
)

// A Buffer is a sink for two channels that keeps everything.
type Buffer struct {
	audio.Format
	Samples []float32 // left and right next to each other
}

// Start makes room.
func (b *Buffer) Start(f audio.Format) error {
	b.Format, b.Samples = f, make([]float32, 0, 2*f.Frames)
	return nil
}

// Write keeps the frames.
func (b *Buffer) Write(frames []float32) error {
	b.Samples = append(b.Samples, frames...)
	return nil
}

// Finish does nothing.
func (b *Buffer) Finish() error { return nil }

// Left returns the left channel.
func (b *Buffer) Left() []float32 { return b.channel(0) }

// Right returns the right channel.
func (b *Buffer) Right() []float32 { return b.channel(1) }

func (b *Buffer) channel(side int) []float32 {
	s := make([]float32, len(b.Samples)/2)
	for i := range s {
		s[i] = b.Samples[2*i+side]
	}
	return s
}

// WAV returns a WAV file of one channel of floats, which holds every sample as
// it is.
func WAV(rate int, samples []float32) []byte {
	var file bytes.Buffer
	sink, err := audio.NewWAV(&file, audio.Float32, audio.Tags{})
	if err == nil {
		err = sink.Start(audio.Format{SampleRate: rate, Channels: 1, Frames: int64(len(samples))})
	}
	if err == nil {
		err = errors.Join(sink.Write(samples), sink.Finish())
	}
	if err != nil {
		panic(err) // a buffer takes everything
	}
	return file.Bytes()
}
