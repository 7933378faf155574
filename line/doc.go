// Package line makes lines: groups of notes taken from each scale in turn,
// their rhythm, the changes under them, and their landings.
//
// A [Request] names the scales where they lie under the hand, the size of the
// groups, the direction and what each group starts beside; [Build] answers
// with every note of the line, exactly. [CycleOf] says when group and bar line
// meet again. [Land] leads the end of a line to a chord tone on a beat: it is
// a search with a stated cost, and its best is the best there is.
//
// [Write] writes notes into bars, as a player reads them: note values, dots,
// ties, rests, tuplets and beams. The page and the files draw what it answers.
//
// The words: a group is a run of notes from one scale. A pass is the groups
// from one end of the hand to the other. A step is a place in a group, counted
// in scale steps in the direction of the pass, from 1. The reference of a
// group is the note the next one starts beside.
//
// Time is counted in [Beat]s, 1/960 of a quarter note, from the first bar
// line; a pickup is negative. Positions are written ones: swing moves only
// what sounds, see [Rhythm.Sounding].
//
// Everything is a plain value or a pure function: the same request gives the
// same line. Input that cannot be taken is a *[pitch.InputError] that names
// the field; nothing panics on it. The package knows nothing of fingers.
package line
