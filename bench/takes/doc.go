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
//   - A take is there as a whole or not at all: it is written beside the others
//     under a name that is no take's, synced, and then renamed.
//   - Names never collide and nothing is overwritten, whatever number of
//     programs keep takes in the same folder at once: a rename onto a folder
//     that exists fails, and the next name is tried.
//   - Nothing is made before the first take is kept.
//   - A file that was changed by hand is read or refused, and never a panic.
//   - Time is passed in.
//
// There is no database: a player's takes are hundreds, the newest are listed by
// name, and only those shown are read. The practice log will refer to takes by
// their names.
package takes
