// Package hear listens to a recording of one guitar, or to a guitar as it is
// played, and marks the take note by note against an exercise.
//
// [MarkTake] gives each written note of an [exercise.Exercise] its verdict; a
// [Follower] does so while the take is played to a click. [Hear] returns the notes
// of any recording. The same samples give the same result, whatever blocks they come
// in; nothing is stored and nothing is random.
//
// # How a note is heard
//
// An attack is a peak of spectral flux, on a logarithmic scale with a maximum
// filter (Böck and Widmer, DAFx 2013). A slur, or a soft stroke on a dark string in
// a live room, has hardly any flux; there the period of the sound changes, by the
// difference function of YIN (de Cheveigné and Kawahara 2002, normalised as by
// McLeod and Wyvill 2005), and a change of period is an attack too.
//
// At each attack the spectrum before is subtracted from the spectrum after. What
// rings on, from other strings, the room or the band next door, cancels, and the
// harmonics of a few candidate pitches are sought in what is left. Features of each
// candidate go to a classifier: how much of what is new it explains, what its
// octaves explain, how periodic the sound became at its period, how strong it is
// against the notes of the take, how the stroke rose, how long ago the note before
// began, how well it fits the guitar's own tuning. As in pYIN (Mauch and Dixon 2014)
// a candidate is then not simply a note or none but one with a probability. The
// exercise's pitches are not among the features. What depends on the loudness of the
// whole take is classified again at its end.
//
// The classifier is a small fitted network; doc/adr/0006-note-classifier.md says
// why, what it was fitted to and how to fit it again.
//
// An onset is placed a little before the rise of the highs: recordings begin to
// sound at once, but sound fonts some milliseconds after they are asked to, and the
// lead is set between the two.
//
// # How a take is marked
//
// Heard and written notes are aligned by dynamic programming over pairs, with costs
// for wrong, missed, extra and badly timed notes, and for going back: a player may
// restart, and of several attempts at a note the last one counts.
//
//   - With a click, timing is against the click. Without one, tempo and start are
//     found: of the tempi that the paces between notes suggest, and of some around
//     the written one, the cheapest reading counts, and being far from the written
//     tempo costs a little. Where the player halts, the beat starts again.
//   - A take that is mostly wrong against its click and mostly right by its own beat
//     was recorded through an unknown delay, and is marked by its own beat.
//   - A note more than a beat or two from where it is written is not that note.
//   - A moment that is less likely a note than not counts only where the written
//     note would otherwise be missed, and only with its pitch. A note that may as
//     well have had the written pitch is right.
//   - The wrong note with which a new attempt begins is part of the attempt.
//   - A heard note that matches no written one is extra, unless it is 15 dB softer
//     than the median (a ghost or grace note), not quite sure, the note before it
//     with its pitch moved (a vibrato, a bend), or most of a beat before the line (a
//     count-in).
//   - A take with few right notes among those heard is of another line.
//
// # How verdicts come live
//
// Live, an attack is classified 34 ms after its second period, again every 10 ms
// while it is doubtful, and once more when 125 ms of it were heard, as in a
// recording. A right note's verdict is given at once. A wrong one's is given when it
// is due, within 60 ms of the second period, a block of 10 ms included; so is that of
// a stroke whose pitch is not clear. What may still turn out to be the written pitch
// is called right then, and changed if the whole sound says otherwise. Two periods
// of the lowest strings tell no semitone, nor always do 125 ms: below F♯2 a note
// that is a semitone off may be called right.
//
// # Scores and their terms
//
// Times are in seconds, or in milliseconds where the name says so; pitches in MIDI
// keys with a fraction; levels in dB against full scale. A note is right when its
// pitch is within 50 cents (<=) of the written one on the guitar's own tuning, which
// may be up to 40 cents off; its octave counts. Timing is against the click, or,
// without one, against the player's own beat: a robust line through the onsets
// within eight quarter notes on either side, so that a drifting tempo is not called
// bad timing and a rushed group still is.
//
// The evaluation (go run ./hear/internal/eval; its tables are in doc/hearing.md)
// scores notes by the published rule: onset within 50 ms (<=) and pitch within 50
// cents (<=) of the true, sounding pitch, each note used at most once, as many pairs
// as possible (Raffel et al., mir_eval, ISMIR 2014). It differs from mir_eval's
// transcription score without offsets in rounding nothing; mir_eval rounds distances
// to four decimals first. A reference against itself scores 1, nothing against
// something 0. Right notes lost are those marked anything but right; wrong notes
// caught are those marked anything but right. A sound font's true onset is when the
// note is asked for. Timing against the player's own beat does not depend on that.
package hear
