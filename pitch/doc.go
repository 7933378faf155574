// Package pitch holds the names and meanings of notes: names, pitches,
// intervals, scales, chords, collections and set classes, the degree and
// function of a note over a chord, and its roughness.
//
// Names and sounds are different things: a [Name] is a letter and an
// accidental, a [Pitch] adds a sounding octave, and a pitch class is an int from
// 0 (C) to 11 (B). Octaves are those of scientific pitch notation: C4 is MIDI
// key 60, and the guitar's open first string is E4. Distances are in semitones
// unless stated otherwise.
//
// The Parse functions and [Relative] read what a person types. What they can't
// read is an [InputError]: one line that says what is accepted and, if there is
// one, the nearest valid spelling. Nothing panics on input. String, Name and
// Words write values so that they read back the same.
//
// Facts are in tables, each with its source: scale types in scaletypes.go,
// Forte's set classes in forte.go, kinds of chord in chordsymbol.go. Rules of
// common practice without a published source (which notes to avoid over a chord,
// which chord belongs to a scale) are stated at the function that applies them.
//
// Everything is a plain value or a pure function. The package knows nothing
// about necks or time.
package pitch
