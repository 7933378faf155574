// Package line makes lines: groups of notes taken from each scale in turn,
// their rhythm, the changes under them, and their landings.
//
// Time is counted in [Beat]s, 1/960 of a quarter note, from the first bar
// line; a pickup is negative. The package knows nothing of fingers.
package line
