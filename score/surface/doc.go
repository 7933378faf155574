// Package surface holds the display list that every picture is laid out to,
// and the writers that turn it into files.
//
// A [Drawing] is a list of items in mm, y downward: [Rules], [Shape], [Disc],
// [Glyph], [Text], and [Group] for items that belong together. [WriteSVG]
// writes a file of its own, [WritePageSVG] a picture for a page with its own
// style sheet, [WritePDF] pages, and [WritePNG] pixels. All show the same
// picture, and the same drawing gives the same bytes.
//
// Music signs are the outlines of a SMuFL font and are placed by the font's own
// metadata and engraving defaults. Text is set in two open fonts that hold the
// accidentals as characters, so that a reader can search a page for B♭.
//
// The package knows nothing of exercises, music theory or the web.
package surface
