package hear

import (
	"fmt"

	"heddle/audio"
	"heddle/pitch"
)

// A Listener hears notes while they are played. It is fed blocks of samples
// of any length and answers with the notes that have become certain; each
// comes within 60 ms of the note's second period, counted in the samples fed.
// It keeps a second of sound, however long the take is.
type Listener struct {
	rate       int
	resampler  *audio.Resampler
	transcript *transcript
	block      []float32
}

// NewListener returns a listener to one channel at the given rate.
func NewListener(hz int, opts Options) (*Listener, error) {
	if hz < audio.LowestHz || hz > audio.HighestHz {
		return nil, &pitch.InputError{What: "sample rate", Value: fmt.Sprintf("%d Hz", hz), Want: "8000 to 192000 Hz"}
	}
	l := &Listener{rate: hz, resampler: audio.NewResampler(hz, rate), transcript: newTranscript(opts)}
	l.transcript.ear.live = true
	l.transcript.ear.reachAhead = livePeakReach
	l.transcript.reading.doubts = opts.Doubts
	return l, nil
}

// A LiveNote is a note as it was heard, or heard better: one that turns out to
// be part of a surer stroke, or to have another pitch when more is heard of it,
// is told again with the same Number; one that turns out to be none has a
// Confidence below one half then.
type LiveNote struct {
	Heard
	Number int
}

// Feed takes the next samples and returns the notes that they decide.
func (l *Listener) Feed(x []float32) []LiveNote {
	l.block = l.resampler.Feed(l.block[:0], x)
	return l.hear(l.block)
}

// Finish returns what is decided by the silence after the last sample.
func (l *Listener) Finish() []LiveNote {
	l.block = l.resampler.Flush(l.block[:0])
	notes := l.hear(l.block)
	return append(notes, l.hear(make([]float32, int(flushS*rate)))...)
}

func (l *Listener) hear(x []float32) []LiveNote {
	var notes []LiveNote
	t := l.transcript
	t.told = func(number int) {
		notes = append(notes, LiveNote{Heard: t.reading.notes[number], Number: number})
	}
	t.ear.hear(x)
	return notes
}

// Heard returns all notes so far, by their numbers.
func (l *Listener) Heard() []Heard { return l.transcript.soFar() }

// Tuning returns the tuning as far as it is known.
func (l *Listener) Tuning() Tuning { return l.transcript.ear.tuning.tuning() }
