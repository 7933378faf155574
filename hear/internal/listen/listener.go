// Package listen hears the notes of one guitar in a stream of sound, from a
// recording or while it is played. How it works and whose methods it uses is in
// the documentation of package hear.
//
// Sound has [spectral.Rate] samples a second, in one channel between −1 and 1.
// Times are in seconds from its first sample, pitches in MIDI keys with a
// fraction, levels in dB against full scale. Probabilities are kept as log odds:
// 0 is as likely as not. The same samples give the same notes, however they are
// cut into blocks.
package listen

import (
	"slices"

	"heddle/hear/internal/spectral"
)

// Options is what may be known of a take before it is heard.
type Options struct {
	// Lowest and Highest are the keys between which notes are heard.
	Lowest, Highest float64
	// Doubts asks for moments too that are less likely notes than not.
	Doubts bool
	// Live asks for notes as early as possible, doubts among them, to be revised
	// later.
	Live bool
}

// A Listener hears notes. It keeps a second of sound, however long the take is.
type Listener struct {
	opts    Options
	tracker *tracker
	notes   noteList // so far
	moments []Moment // of a recording, all that may be notes
}

// NewListener returns a listener that has heard silence.
func NewListener(opts Options) *Listener {
	l := &Listener{opts: opts, notes: noteList{live: opts.Live}}
	l.tracker = newTracker(opts, l.take, l.revise)
	return l
}

// Feed takes the next samples.
func (l *Listener) Feed(x []float32) { l.tracker.feed(x) }

// silenceS is how much silence ends a take, so that its last note is decided.
const silenceS = 0.5

// Finish ends the take. Nothing may be fed after it.
func (l *Listener) Finish() { l.Feed(make([]float32, int(silenceS*spectral.Rate))) }

// take enters the next moment and returns the number of its note, or −1.
func (l *Listener) take(m Moment) (number int) {
	if !l.opts.Live && m.odds() < faintestRecorded {
		return -1 // live, it may become a note yet
	}
	m.keepLikely()
	if !l.opts.Live {
		l.moments = append(l.moments, m)
	}
	number = l.notes.add(&m)
	if number >= 0 && m.odds() >= 0 {
		l.tracker.took(m)
	}
	return number
}

// revise enters a live moment again after more of it was heard.
func (l *Listener) revise(m Moment, number int) {
	m.keepLikely()
	l.notes.revise(&m, number)
}

// Notes returns the notes so far, by their numbers, until the next call of Feed.
// A live note that turns out to be none keeps its number, with a Confidence below
// one half.
func (l *Listener) Notes() []Note { return l.notes.notes }

// Transcription returns the notes of a finished recording in order, with the
// doubts where they were asked for. Each moment is classified again against the
// loudness of the whole take: before the first note, a band next door is the
// loudest sound there is.
func (l *Listener) Transcription() []Note {
	typical := typicalLoudness(l.moments)
	var list noteList
	for _, m := range l.moments {
		m.Candidates = slices.Clone(m.Candidates)
		typical.apply(&m)
		list.add(&m)
	}
	l.tracker.decay.end(list.notes)
	if !l.opts.Doubts {
		return list.notes
	}
	return list.withDoubts()
}

// TuningCents is how far the guitar is above A4 = 440 Hz, from −50 to 50.
func (l *Listener) TuningCents() float64 { return l.tracker.tuning.cents() }

// PeakDB is the level of the loudest 5 ms.
func (l *Listener) PeakDB() float64 { return l.tracker.peakDB }

// Moments returns every moment of a take at which a note may begin, for fitting
// the classifiers: as it is classified first when live, and else in the end.
func Moments(x []float32, opts Options) (moments []Moment) {
	l := NewListener(opts)
	l.tracker.report = func(m Moment) int {
		moments = append(moments, m)
		return l.take(m)
	}
	l.Feed(x)
	l.Finish()
	typical := typicalLoudness(moments)
	for i := range moments {
		typical.apply(&moments[i])
	}
	return moments
}
