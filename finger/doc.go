// Package finger gives each note of a line a string, a fret, a finger of the
// fretting hand and a stroke of the picking hand, by the shortest path
// through all the ways a hand could play it.
package finger
