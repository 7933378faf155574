// Package neck holds instruments and where scales lie on them: strings and
// tunings, the geometry of frets, placements of a scale under one hand, and
// which placements of two scales are near each other.
//
// Strings are numbered from 1, the one nearest the floor when the instrument
// is played (the highest-sounding, except in re-entrant tunings). Frets are
// numbered from the nut, or from the capo where there is one, as tablature
// does; fret 0 is the open string. Lengths are in mm.
package neck
