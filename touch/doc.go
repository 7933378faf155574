// Package touch shapes the notes of a line as a player does: bends, slides,
// vibrato, ghost notes, accents and staccato.
//
// A [Touch] is what is done to one note. A [Style] is a set of the things that may
// be done; [ParseStyle] reads one by a name of the trade, such as "blues", or as a
// list, such as "bends, vibrato". A style is placed on a line by rules that are the
// same every time, in two steps: [Style.Bend] before the line is fingered, since a
// bent note is stopped at a lower fret, and [Style.Complete] after it. [Touch.Path]
// says how the pitch moves, for everything that sounds.
//
// No touch changes the notes of a line. A note bent by a semitone or a tone is
// stopped that far below its pitch and reaches it; a quarter-tone bend leaves it by
// a quarter tone only.
//
// The rules are common practice for guitarists; the figures in them are heddle's
// own.
package touch
