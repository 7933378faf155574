// Package takes keeps recorded takes on the disk, in the folder takes of the
// player's data folder.
//
// A take is a folder of its own, named by when it was taken in UTC
// (20261125-182211), with two files that any program can read:
//
//	take.flac  the recording: one channel, 16 bits, at its own rate
//	take.json  the exercise, the marks and when it was taken (see Take)
//
// What the package promises:
//
//   - A take appears whole or not at all: it is written next to the others under
//     a temporary name, synced, and then renamed.
//   - Names never collide and nothing is overwritten, however many programs keep
//     takes in the same folder at once: a rename onto a folder that exists fails,
//     and the next name is tried.
//   - Nothing is created before the first take is kept.
//   - A file that was changed by hand is read or refused; it never causes a panic.
//   - Time is passed in.
//
// There is no database: a player has hundreds of takes, the newest are listed by
// name, and only those shown are read.
package takes
