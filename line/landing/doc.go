// Package landing leads the end of a line to a chord tone on a beat. It offers
// several endings, one of each [Kind], each with a stated cost; [Find] is a search
// whose result is proven to be the cheapest of its kind.
//
// An ending replaces some of the pattern's last notes with approach notes and the
// target. In every ending
//
//   - no step is wider than a fourth, and no pitch is played twice in a row,
//     counted from the last note kept;
//   - the last step is a semitone or a tone;
//   - every note is under the hand: in the window of the placements or, for a note
//     in none of the scales, at most one fret beside it;
//   - notes belong to the scales of their section and have the scale's own
//     spelling, or are chromatic and spelled by the letter next to the note they
//     lead to;
//   - the two notes before the target, kept ones too, are home or chromatic, never
//     from a superimposed scale, since the line comes home before it lands; only if
//     no ending at all obeys this may they be;
//   - the target starts exactly on the beat or, if it is anticipated, an eighth
//     before it. A rest may come before the approach, but not inside it or before
//     the target. If pattern notes are replaced, the rest is shorter than one note.
//
// The cost is the sum of the constants in cost.go. Everything is a pure function:
// the same request gives the same endings.
package landing
