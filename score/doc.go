// Package score draws an exercise: notation over tablature with the note
// names, degrees and roughness beneath, the neck with its placements, and the
// strip that shows what each note does to the chord.
//
// Every view is laid out once, to a [Drawing]: a display list of lines,
// shapes, glyphs and text in mm. [WriteSVG], [WritePDF] and [WritePNG] give
// the same picture of it. Music signs are the outlines of a SMuFL font, placed
// by the font's own metadata and engraving defaults; text is set in two open
// fonts that hold the accidental signs as characters, so that a reader can
// search a page for B♭.
//
// The layout counts in staff spaces (the distance between two lines of the
// staff), as the font's metadata does, and everything above the display list
// works in them; y grows downward from the staff's top line.
//
// Each note of the exercise stands in a group that carries its index as
// data-note; in the neck, where one spot serves several notes, the spot's group
// has an id that says where it is ([SpotID]). Home and superimposed scales
// differ by colour and by something else everywhere: the line of the bracket
// over a group, the shape of a spot on the neck.
//
// The same exercise and options give the same bytes. The package knows
// nothing of the web.
package score
