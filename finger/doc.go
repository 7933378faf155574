// Package finger gives each note of a line a string, a fret, a finger of the
// fretting hand and a stroke of the picking hand, by the shortest path
// through all the ways two hands could play the whole line.
//
// A way to play one note is a spot, a finger, the hand's position (where the
// first finger lies and how many frets above it the fourth lies) and a
// stroke. [Assign] weighs each way by itself and each change from one way to
// the next, and finds the sequence that costs least in all, after Sayegh
// (1989) and Radicioni and Lombardo (2005). Both hands are weighed together:
// a string crossing that the pick finds easy can pay for a longer reach. What
// everything costs, in what unit and why, stands in costs.go.
//
// What always holds:
//
//   - finger 0 is the open string and nothing else;
//   - the hand, measured to the nearest mm, never spans more than the player's
//     reach. Notes that lie wider apart make the hand move, and are paid
//     for; no line is refused for them;
//   - while the hand stays in one position, no finger goes straight from one
//     fret to another, and no finger goes straight to a fret beyond that of a
//     higher-numbered one;
//   - an open string leaves the hand where it was;
//   - alternate strokes alternate; economy strokes alternate on a string and
//     follow the direction of a crossing; legato picks the first note on a
//     string, after a rest, and a repeated pitch, and slurs the rest.
//
// The same notes give the same fingering on every machine: all sums are in
// whole numbers, and ties are broken by a stated order (see [Assign]).
//
// S. I. Sayegh, "Fingering for string instruments with the optimum path
// paradigm", Computer Music Journal 13(3), 1989. D. Radicioni and V. Lombardo,
// "Fingering for music performance", Proceedings of the ICMC, 2005.
package finger
