package bench

import (
	"errors"
	"heddle/audio"
)

// errHeadDone ends a render of which only the beginning is wanted.
var errHeadDone = errors.New("the beginning is done")

// A headOnly is a sink that keeps only the first frames of what it is given.
type headOnly struct {
	audio.Sink
	left int64 // frames still wanted
}

// Start announces the beginning alone.
func (h *headOnly) Start(f audio.Format) error {
	f.Frames = min(f.Frames, h.left)
	return h.Sink.Start(f)
}

// Write passes on what is wanted and finishes with its last frame.
func (h *headOnly) Write(frames []float32) error {
	wanted := min(int64(len(frames)/2), h.left)
	if err := h.Sink.Write(frames[:2*wanted]); err != nil {
		return err
	}
	if h.left -= wanted; h.left > 0 {
		return nil
	}
	if err := h.Sink.Finish(); err != nil {
		return err
	}
	return errHeadDone
}
