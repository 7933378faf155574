// Package practice holds the rules of practising: what is kept on the shelf,
// what a playing of it counts for, at which tempo and when to play it again,
// what to play today, which moves fail, what a player can do already, and
// questions about the neck.
//
// Its terms:
//
//   - An [Item] is a line, cell, phrase or solo on the shelf.
//   - A [Unit] is what is practised: an item in one key at one placement.
//   - A [Run] is one playing of a unit. Runs are only added; a mistaken one is
//     struck out.
//   - A [Standing] is what the runs of a unit add up to: tempo, memory, record.
//   - A [Record] is everything the rules look at: items, standings, moves and
//     answers of one player. Package practice/store keeps it.
//
// The rules are pure: the time, the record and a seed are passed in, and the
// same input gives the same plan. Days are those of the time zone that a time
// is given in. Tempos are in quarter notes a minute.
//
// Sources: Levitt (1971), Transformed up-down methods in psychoacoustics, JASA
// 49, for the tempo; the FSRS model with the parameters of go-fsrs v3.3.1 for
// when to play again, fitted on flash cards and not on hands; Carter and Grahn
// (2016), Optimizing music learning: exploring how blocked and interleaved
// practice schedules affect advanced performance, Frontiers in Psychology
// 7:1251, for turns of about three minutes: ten clarinettists, so a small
// sample. Numbers marked "our choice" have no source.
package practice
