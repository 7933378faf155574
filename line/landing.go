package line

import (
	"fmt"
	"math"

	"heddle/neck"
	"heddle/pitch"
)

// An Ending is one way home: notes that replace the end of the pattern and
// the target they reach on the beat.
type Ending struct {
	Replaced int    // how many of the pattern's last notes give way
	Notes    []Note // approach notes and the target, all in the landing role
	Target   pitch.Degree
	Cost     float64 // what Land minimises; see its constants
}

// A Target is a note to land on and what it is to the chord.
type Target struct {
	Name   pitch.Name
	Degree pitch.Degree
}

// A LandRequest states how a line is to end.
type LandRequest struct {
	Line       []Note          // the pattern, at least one note
	At         Beat            // when the target sounds, as written; see LandingBeat
	Targets    []Target        // any of these, in any octave under the hand
	Sections   []Section       // the scales in force, as for Build
	Instrument neck.Instrument // whose frets the hand is on
	Rhythm     Rhythm
	Replace    int // at most this many notes give way; 0 is DefaultReplace, below 0 none
	Endings    int // how many endings to return; 0 is DefaultEndings
}

const (
	// DefaultReplace is how many of the pattern's last notes may give way:
	// four, half a bar of eighths.
	DefaultReplace = 4

	// DefaultEndings is how many endings are offered: as many as a player
	// would try.
	DefaultEndings = 5

	// mostReplace and mostEndings bound the search.
	mostReplace = 16
	mostEndings = 64

	// MostApproach is how many notes lead to a target: a bar of eighths, past
	// which the way home would be a line of its own.
	MostApproach = 8
)

// LandingBeat returns when a line is to land: on the beat of the bar (counted
// from 1, in the metre's lower number; 2.5 is the off-beat of 2) that comes
// first at or after the pattern's end or, when bars is set, on that of the bar
// after the last of bars.
func LandingBeat(end Beat, m Meter, beat float64, bars int) (Beat, error) {
	if err := m.Check(); err != nil {
		return 0, err
	}
	if err := CheckBars(bars); err != nil {
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
	return -floorDiv(into-end, m.Bar())*m.Bar() + into, nil
}

// Land returns the cheapest endings of a line, best first, no two alike. Each
// replaces at most Replace of the pattern's last notes (one is always kept)
// and leads by up to MostApproach notes of the line's value to a target exactly
// at At. A rest may stand before the approach, but not in it nor before the
// target; where pattern notes give way the approach takes their time up but
// for less than one note. In every ending
//
//   - no step is wider than a fourth and no pitch is played twice running,
//     counted from the last note kept;
//   - the last step is a semitone or a tone;
//   - every note lies under the hand: on a fret of the placements' windows
//     or, where it is in none of the scales, at most one fret beside them;
//   - the notes are those of the scales in force when they sound, in the
//     scale's own spelling, or chromatic ones (Scale is Chromatic), spelled
//     by the letter next to the note they lead to.
//
// The approach and its target are a group of their own, numbered after the
// last group kept, their steps counted from 1. The target lasts to the end of
// its bar, at least a quarter.
//
// What an ending costs is said by this package's constants from costReplaced to
// costBare. The search is exact: no ending that obeys the above and is
// left out costs less than one returned. There is no ending, and the answer is
// empty, where no target lies in reach.
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
