// Package weave says which scales a given line is woven from.
//
// [Read] gives each note the scale it is heard in. A reading is a home scale and a path
// through the line that takes each note from home or from another scale. Its cost is the
// sum of the constants in costs.go: for a visit to another scale, for the notes of a
// scale that the line never plays, for a note outside its scale, for a step that skips
// notes of its scale and for changing scale. The cheapest reading of all is found.
//
// Scales that a regular pattern takes in turn (three notes of one, three of the other)
// change without cost: the pattern explains the changes. [Pattern] says which groups,
// order, direction and follow make the line, by the rules of package line.
//
// The scales that are considered are listed in candidates.go, in all twelve keys, with
// home and the arpeggios of the chords. Scales with the same notes are one scale here
// (G minor and B♭ major pentatonic); the name follows home, the chord's root or the last
// note.
//
// Everything is a pure function of its request. The package knows nothing about fingers
// or files.
package weave
