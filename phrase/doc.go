// Package phrase makes phrases: a few bars inside the home scale with trips outside
// (dips), landed on a chord tone, as a player would play them in a solo.
//
// [Find] returns the best phrases of a [Request], each different from the others. It
// searches all phrases of a stated space:
//
//   - The rhythm is two two-bar rhythms of the table in rhythms.go in turn, cut off where
//     the phrase lands. Every two bars rest for a beat or more at least once.
//   - Inside notes are of the home placement, or tones of the chord under the hand. On a
//     strong beat, a note of a quarter or more is a chord tone, a tension or blue.
//   - No step is wider than a major sixth. A leap wider than a fourth is followed by a
//     step back. No pitch is played three times in a row, and the highest note so far is
//     never played again, so that there is one highest note.
//   - A dip is one or two groups of a superimposed scale, as a line builds them, or a
//     given cell. It does not start on the first beat of a bar. A step or third leads to
//     it, and a semitone or tone leads from it to a home chord tone within a beat. The
//     first and last bar are inside, and a bar's worth lies between dips.
//   - The last note is a target on its beat. The step to it is a semitone or tone, and the
//     two notes before it are inside.
//
// The cost of a phrase is the sum of the constants in costs.go. The search is exact: the
// phrase returned for each rhythm costs least of all phrases in it. Of two rhythms whose
// phrases differ in less than three in ten of their notes, only the cheaper is offered.
//
// Everything is a pure function of its request. The package knows nothing about fingers
// or files.
package phrase
