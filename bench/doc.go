// Package bench is the page where the work is done: it serves, on this
// machine, a page on which a player states an exercise as a sentence and sees
// and hears it at once.
//
// The address is the exercise: its query holds the fields of exercise.Spec
// under their own names, beside a few that only say what is shown (view). A
// GET changes nothing. Pages are written by html/template and can be read,
// followed and submitted without scripts; scripts add what moves and sounds.
//
// What the package promises:
//
//   - It answers only requests that were meant for it: the Host must be this
//     machine's, another site's scripts are refused, and nothing on a page
//     comes from another host or stands inline.
//   - Work is bounded: sizes, times, how much is rendered at once and how much
//     is kept. What asks for too much is answered with 400 and the reason.
//   - The same address gives the same bytes, but for what a player keeps. There
//     is no chance, and the only clock is the one that dates kept takes.
//   - A recording is written to the disk only when a player keeps it (package
//     takes), and what can't be kept stays on the page.
//
// How anything is computed is not known here: exercise builds it, score draws
// it, sound plays it, notefile writes it down.
package bench
