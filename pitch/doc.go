// Package pitch holds what notes are called and what they mean: names,
// pitches, intervals, scales, chords, collections and set classes, the degree
// and function of a note over a chord, and its roughness.
//
// Names are kept apart from sounds: a [Name] is a letter and an accidental, a
// [Pitch] adds a sounding octave, a pitch class is an int from 0 (C) to 11
// (B). Octaves are those of scientific pitch notation, so that C4 is MIDI key
// 60 and the guitar's open first string is E4. Distances are in semitones
// unless they say otherwise.
//
// Everything here is a plain value or a pure function. The package knows
// nothing of necks and nothing of time.
package pitch
