package exercise

import (
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
	"heddle/weave"
)

// An Exercise is a built spec.
type Exercise struct {
	Spec       Spec // canonical
	Sentence   string
	Instrument neck.Instrument
	Naming     pitch.Naming
	Rhythm     line.Rhythm
	Tempo      float64 // quarter notes a minute
	Length     line.Beat
	Scales     []Scale // home first; with changes, each section's scales in turn
	Chords     []Chord // in time; without changes, one for the whole line
	Collection pitch.Collection
	Notes      []Note
	Cycle      line.Cycle
	Endings    []Ending        // one of each kind, best first; the one the spec asks for is in Notes
	Phrases    []Phrase        // the sentence, field by field
	Given      bool            // whether the line is from outside, see Adopt
	Readings   []weave.Reading // of a given line: how it is woven, the likeliest first
	Remarks    []string        // what may surprise, one sentence each: what was changed, a scale that adds no note
	heard      map[heardKey]float64
	Pattern    int // how many of Notes belong to the pattern; the landing follows
	Hand       finger.Hand
}

// A Scale is one placed scale of the exercise.
type Scale struct {
	pitch.Scale
	Placement neck.Placement
	Home      bool
	Away      string // how far from home it was given: "a semitone down", or empty
}

// ScaleNumber returns which scale of its section an index of Scales is: 0 for
// home, 1 for the first superimposed one, and so on; −1 for line.Chromatic and
// any other index of no scale.
func (e *Exercise) ScaleNumber(scale int) int {
	if scale < 0 || scale >= len(e.Scales) {
		return -1
	}
	number := 0
	for i := scale; i > 0 && !e.Scales[i].Home; i-- {
		number++
	}
	return number
}

// A Chord is a chord with its time.
type Chord struct {
	pitch.Chord
	Start, End line.Beat
	Voicing    []int // MIDI keys, lowest first; roughness is computed against it
	hearing    pitch.Hearing
}

// An Ending is one way to land, named and fingered: its notes replace the pattern's
// last Replaced notes.
type Ending struct {
	Replaced int
	Notes    []Note    // approach notes, then the target
	Target   string    // the requested degree, as typed
	At       line.Beat // the beat it lands on, also if the target comes early
	Kind     string    // how it gets there, in words: see landing.Kind
	Cost     float64
}

// A Note is everything known about one note.
type Note struct {
	line.Note
	finger.Fingering // of a bent note, where the string is stopped
	Touch            touch.Touch
	Index            int
	Degree           pitch.Degree
	Function         pitch.Function
	Roughness        float64 // added sensory dissonance, see pitch.Hearing
}

// SlidesOn returns how many semitones the finger slides at the end of note i, on to the
// next note on its string, or 0.
func (ex *Exercise) SlidesOn(i int) float64 {
	if i+1 >= len(ex.Notes) {
		return 0
	}
	n, next := &ex.Notes[i], &ex.Notes[i+1]
	slid := next.Touch.Slide == touch.Between || next.Stroke == finger.Slide
	if !slid || next.String != n.String || next.Start != n.End() {
		return 0
	}
	return float64(next.Fret - n.Fret)
}
