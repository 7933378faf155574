// Package score draws the music of an exercise: notation over tablature, with
// fingers, note names, degrees and roughness beneath, in one column for each
// note.
//
// The subpackages: notation says what is written, fretboard draws the neck,
// strip draws what each note does to the chord, and paper puts all of it on
// pages. Every view is laid out once, to a [surface.Drawing], which package
// surface writes as SVG, PDF or PNG.
//
// Lengths in the layout are staff spaces (the distance between two lines of the
// staff), as in the font's metadata; only the display list is in mm. y grows
// downward from the staff's top line.
//
// Each note of the exercise is in a group that carries its index as
// data-note. Home and superimposed scales differ by colour and by something
// else everywhere: the line of the bracket over a group, the shape of a spot on
// the neck.
//
// The same exercise and options give the same bytes. The package knows
// nothing of the web.
package score
