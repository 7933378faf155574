// Package neck holds instruments and the positions of scales on them: strings and
// tunings, the geometry of frets, placements of a scale under one hand, and which
// placements of several scales are near each other.
//
// Strings are numbered from 1, the one nearest the floor when the instrument
// is played (the highest-sounding, except in re-entrant tunings). Frets are
// numbered from the nut, or from the capo where there is one, as tablature
// does; fret 0 is the open string. Lengths are in mm.
//
// Usually, [Named] gives an instrument, [Placements] all the placements of one
// scale on it, [Near] the placements of several scales within reach of one hand,
// best first and each with its reason, and [Choose] or [Usual] picks one of
// them.
//
// Everything is a plain value or a pure function: the same instrument and
// scales give the same placements in the same order. An instrument that fails
// [Instrument.Check] has no placements. The package knows nothing about time,
// lines or fingerings.
package neck
