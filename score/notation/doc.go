// Package notation writes an exercise out in bars: note values, rests, ties,
// tuplets and accidentals. It says what is written, and package score where it
// is drawn.
package notation
