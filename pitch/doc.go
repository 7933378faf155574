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
// Text that a person types is read by the Parse functions and by [Relative];
// what can't be read comes back as an [InputError], one line that says what is
// accepted and, where there is one, the nearest valid spelling. Nothing here
// panics on input. What a parser reads, the value's own String, Name or Words
// writes so that it reads back the same.
//
// The facts stand in tables, each with its source: scale types in
// scaletypes.go, Forte's set classes in forte.go, kinds of chord in
// chordsymbol.go. Rules that the trade holds but does not write down (which
// notes to avoid over a chord, which chord a scale has) stand at the function
// that applies them.
//
// Everything here is a plain value or a pure function. The package knows
// nothing of necks and nothing of time.
package pitch
