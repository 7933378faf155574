// Package line makes lines: groups of notes taken from each scale in turn,
// their rhythm and the changes under them. Package landing leads them home.
//
// A [Request] holds the placed scales, the size of the groups, the direction and
// which note of a group the next one starts from; [Build] returns every note of
// the line. [CycleOf] says when a group begins on a bar line again.
//
// [Write] writes notes into bars, as a player reads them: note values, dots, ties,
// rests, tuplets and beams. Pages and files are drawn from its result.
//
// Terms: a group is a run of notes from one scale. A pass is the groups from one
// end of the hand to the other. A step is a position in a group, counted in scale
// steps in the direction of the pass, from 1. The reference of a group is the note
// that the next group starts from.
//
// Time is in [Beat]s, 1/960 of a quarter note, from the first bar line; a pickup is
// negative. Positions are written ones: swing changes only what sounds, see
// [Rhythm.Sounding].
//
// Everything is a plain value or a pure function: the same request gives the same
// line. Bad input is a *[pitch.InputError] that names the field; nothing panics on
// it. The package knows nothing about fingers.
package line
