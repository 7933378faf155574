package sound

// A Format is what a sink is about to get: stereo at a sample rate, and how
// many frames (a left and a right sample each).
type Format struct {
	SampleRate int
	Frames     int64
}

// A Sink takes sound. Start comes once, first; then Write with interleaved
// left and right samples in −1…1, each slice only the sink's until it returns;
// then Finish, once all of Format.Frames have been written.
type Sink interface {
	Start(Format) error
	Write(frames []float32) error
	Finish() error
}

// Tags are what a sound file says of itself.
type Tags struct {
	Title string
	Tempo float64 // quarter notes a minute; 0 for none
}

// A Buffer is a sink that keeps everything.
type Buffer struct {
	Format
	Samples []float32 // interleaved
}

// Start makes room.
func (b *Buffer) Start(f Format) error {
	b.Format = f
	b.Samples = make([]float32, 0, 2*f.Frames)
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

// channel returns one channel.
func (b *Buffer) channel(side int) []float32 {
	s := make([]float32, len(b.Samples)/2)
	for i := range s {
		s[i] = b.Samples[2*i+side]
	}
	return s
}
