package line

import (
	"fmt"
	"math"

	"heddle/neck"
	"heddle/pitch"
)

// An Ending is one way to land: notes that replace the end of the pattern, and the
// target they reach on the beat.
type Ending struct {
	Replaced int    // how many of the pattern's last notes are replaced
	Notes    []Note // approach notes, then the target, all with the landing role
	Target   pitch.Degree
	Cost     float64 // what Land minimises; see landing_cost.go
}

// A Target is a note to land on and its degree over the chord.
type Target struct {
	Name   pitch.Name
	Degree pitch.Degree
}

// A LandRequest describes how a line should end.
type LandRequest struct {
	Line       []Note    // the pattern, at least one note
	At         Beat      // the written position of the target; see LandingBeat
	Targets    []Target  // any of these, in any octave under the hand
	Sections   []Section // as for Build
	Instrument neck.Instrument
	Rhythm     Rhythm
	Replace    int // at most this many notes are replaced; 0 is defaultReplace, below 0 none
	Endings    int // how many endings to return; 0 is defaultEndings
}

const (
	// defaultReplace is how many of the pattern's last notes may be replaced:
	// four, half a bar of eighths.
	defaultReplace = 4

	// defaultEndings is how many endings are offered: as many as a player would
	// try.
	defaultEndings = 5

	// mostReplace and mostEndings limit the search.
	mostReplace = 16
	mostEndings = 64

	// mostApproach is how many notes may lead to a target: a bar of eighths. More
	// would be a line of its own.
	mostApproach = 8
)

// LandingBeat returns when a line lands: on the given beat of the bar (counted from
// 1, in the metre's lower number; 2.5 is the off-beat of 2). It is the first one at
// or after the end of the pattern or, if bars is set, the one in the bar after the
// last of bars.
func LandingBeat(end Beat, m Meter, beat float64, bars int) (Beat, error) {
	if err := m.Check(); err != nil {
		return 0, err
	}
	if err := checkBars(bars); err != nil {
		return 0, err
	}
	// The comparison is written so that NaN fails it.
	if !(beat >= 1 && beat < float64(m.Beats+1)) {
		return 0, &pitch.InputError{What: "land-beat", Value: fmt.Sprint(beat),
			Want: fmt.Sprintf("a beat of the bar from 1 to %d in %v", m.Beats, m)}
	}
	into := Beat(math.Round((beat - 1) * float64(m.Beat())))
	if bars > 0 {
		return Beat(bars)*m.Bar() + into, nil
	}
	return -FloorDiv(into-end, m.Bar())*m.Bar() + into, nil
}

// Land returns the cheapest endings of a line, best first, no two alike. Each
// replaces at most Replace of the pattern's last notes (one is always kept) and
// leads by up to mostApproach notes of the line's value to a target exactly at At.
// There may be a rest before the approach, but not inside it or before the target;
// if pattern notes are replaced, it is shorter than one note. In every ending
//
//   - no step is wider than a fourth, and no pitch is played twice in a row,
//     counted from the last note kept;
//   - the last step is a semitone or a tone;
//   - every note is under the hand: in the window of the placements or, for a note
//     in none of the scales, at most one fret beside it;
//   - notes belong to the scales of their section and have the scale's own
//     spelling, or are chromatic (Scale is Chromatic) and spelled by the letter next
//     to the note they lead to.
//
// The approach and its target are a group of their own, numbered after the last
// group kept, with steps counted from 1. The target lasts to the end of its bar, and
// at least a quarter.
//
// The cost of an ending is the sum of the constants from costReplaced to costBare.
// The search is exact: no ending that obeys the rules above and is left out costs
// less than one returned. If no target is in reach, there are no endings.
func Land(r LandRequest) []Ending {
	s, ok := newLandSearch(r)
	if !ok {
		return nil
	}
	endings := make([]Ending, 0, s.wanted)
	for _, way := range s.cheapest() {
		endings = append(endings, s.ending(way))
	}
	return endings
}
