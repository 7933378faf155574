// Package score draws an exercise: notation over tablature with the note
// names, degrees and roughness beneath, the neck with its placements, and the
// strip that shows what each note does to the chord.
//
// Every view is laid out once, to a [surface.Drawing], which package surface
// writes as SVG, PDF or PNG.
//
// The layout counts in staff spaces (the distance between two lines of the
// staff), as the font's metadata does, and everything above the display list
// works in them; y grows downward from the staff's top line.
//
// Each note of the exercise is in a group that carries its index as
// data-note; in the neck, where one spot serves several notes, the spot's group
// has an id that says where it is ([SpotID]). Home and superimposed scales
// differ by colour and by something else everywhere: the line of the bracket
// over a group, the shape of a spot on the neck.
//
// The same exercise and options give the same bytes. The package knows
// nothing of the web.
package score
