// Package finger gives each note of a line a string, a fret, a finger of the
// fretting hand and a stroke of the picking hand. It takes the shortest path
// through all the ways two hands could play the whole line.
//
// A way to play one note is a spot, a finger, the hand's position (the fret of the
// first finger and how many frets above it the fourth is) and a stroke. [Assign]
// adds the cost of each way and of each change from one way to the next, and
// finds the sequence that costs least, after Sayegh (1989) and Radicioni and
// Lombardo (2005). Both hands count together: an easy string crossing for the
// pick can make up for a longer reach. All costs, their unit and their reasons are
// in costs.go.
//
// These rules always hold:
//
//   - Finger 0 is an open string.
//   - The hand, measured to the nearest mm, never spans more than the player's
//     reach. Notes further apart make the hand move, at a cost; no line is
//     refused because of them.
//   - While the hand stays in one position, no finger goes straight from one fret
//     to another, and no finger goes straight to a fret beyond that of a
//     higher-numbered one.
//   - A note that is played again on the same spot keeps its finger, unless the
//     fingers are given.
//   - An open string leaves the hand where it was.
//   - Alternate strokes alternate. Economy strokes alternate on a string and
//     follow the direction of a crossing. Legato picks the first note on a
//     string, after a rest, a repeated pitch, and what is bent and what follows it,
//     and slurs the rest.
//
// The same notes give the same fingering on every machine: all sums are whole
// numbers, and ties are broken in a fixed order (see [Assign]).
//
// S. I. Sayegh, "Fingering for string instruments with the optimum path
// paradigm", Computer Music Journal 13(3), 1989. D. Radicioni and V. Lombardo,
// "Fingering for music performance", Proceedings of the ICMC, 2005.
package finger
