// Package bench serves, on this machine, the page on which a player states an
// exercise as a sentence and sees and hears it at once.
//
// The address is the exercise: its query holds the fields of exercise.Spec
// under their own names, beside a few that only say what is shown (view). A
// GET changes nothing. Pages are written by html/template and can be read,
// followed and submitted without scripts; scripts add playback, recording and updates in place.
//
// What the package promises:
//
//   - It answers only requests that were meant for it: the Host must be this
//     machine's, another site's scripts are refused, and nothing on a page
//     comes from another host or is inline.
//   - Work is bounded: sizes, times, how much is rendered at once and how much
//     is kept. A request for too much gets status 400 and the reason.
//   - The same address gives the same bytes, apart from what a player keeps.
//     Nothing is random, and the only clock is the one that dates kept takes.
//   - A recording is written to the disk only when a player keeps it (package
//     takes), and what can't be kept stays on the page.
//
// Nothing is computed here: exercise builds the line, score draws it, sound
// plays it, and deliver writes it to files.
package bench
