// Package hear listens to a recording of one guitar, or to one as it is
// played, and marks the take note by note against an exercise.
//
// [Decode] opens a recording, [Hear] finds its notes, [Mark] aligns them with
// an [exercise.Exercise] and gives each written note its verdict. A
// [Listener] hears notes while they are played, and a [Follower] gives their
// verdicts to a click. Everything works in the same way on the same samples,
// whatever blocks they come in; nothing is stored and nothing random.
//
// # How a note is heard
//
// An attack is a peak of spectral flux, taken on a logarithmic scale with a
// maximum filter (Böck and Widmer, DAFx 2013). A slur, or a soft stroke on a
// dark string in a live room, has hardly any flux; there the period of the
// sound turns, by the difference function of YIN (de Cheveigné and Kawahara
// 2002, normalised as by McLeod and Wyvill 2005), and a turn is an attack too.
//
// At each attack the spectrum before is taken from the spectrum after: what
// rings on, from other strings, the room or the band next door, falls out, and
// what is left is searched for the harmonics of a few candidates of pitch. A
// candidate is weighed by its signs: how much of what is new it explains, what
// its octaves explain, how periodic the sound became at its period, how strong
// it is beside the notes of the take, how the stroke rose, how long ago the
// note before began, how well it lies on the guitar's own tuning. As in pYIN
// (Mauch and Dixon 2014) a candidate is then not a note or none but one with a
// probability; here it comes from a small network with one hidden layer. The
// pitches of the exercise are not among the signs. What rests on the loudness
// of the whole take is weighed again at its end.
//
// The network was fitted (go test -run TestFit -fit -eval 72) to takes of four
// guitars and of other plucked strings, in the rooms, noises and bands of the
// evaluation and bent in the ways in which guitars and recordings differ:
// other string lengths, a body that rings at every stroke, dark tones,
// pedals and amplifiers, harmonics that outdo the first, compressors, laptop
// microphones, MP3, clicks, and slips by an octave. With -fit.held it is fitted
// to all guitars but one and tried on that one, for each in turn.
//
// An onset is placed a little before the rise of the highs (edgeLeadS). Sound
// fonts sound some ms after they are told to, recordings do not: the lead is set
// between the two, which places onsets of FluidR3 about 3 ms late by its note-on
// and those of recorded guitars 5 to 8 ms early by the rise of their energy.
//
// # How a take is marked
//
// Heard and written notes are aligned by dynamic programming over pairs, with
// costs for wrong, missed, extra and badly timed notes, and for going back: a
// player may restart, and of several attempts at a note the last one counts. A
// note that stands where the note before a new attempt's first should be is a
// wrong one that the attempt began with. Tempo and start are found from the take
// unless a click fixes them: of the tempi that the paces between its notes tell,
// and of some about the written one, the one that reads cheapest, where being far
// from the written tempo costs a little. A note beats away from where it is written
// is not that note. A moment that is likely no note is taken for a written one only
// where that note would else be missed and has exactly that pitch; a note that may
// as well have had the written pitch is taken for right. A heard note that stands
// for none is extra, unless it is softer than the median by 15 dB (a ghost or grace
// note), not quite sure, the note before it with its pitch moved (a vibrato, a
// bend), or sounds before the line by most of a beat (a count-in). Where the player
// halts, the beat starts anew.
//
// # How verdicts come live
//
// Live, an attack is judged 34 ms after its second period, looked at again
// every 10 ms while it is doubtful, and once more when 125 ms of it were heard,
// as in a recording. A right note's verdict is given at once, a wrong one's, and
// a stroke's that brought no clear pitch, when it is due: within 60 ms of the
// second period, a block of 10 ms included. What may still come to be the
// written pitch is then called right, and taken back where the whole sound says
// otherwise. In the evaluation (TestEvalLive, 14 takes a setting) 98 to 100 % of
// right notes have a verdict in that time, and 96 % in FluidR3's rooms and noise,
// where what is late is nearly all of its overdriven guitar, which swells for
// 20 ms and more; in a loud band up to one verdict in 15 is another at first than
// in the end, elsewhere one in 35 or fewer where the guitar is within 40 cents of
// its tuning. Down to E1 the first verdict is in time too, but two periods tell no
// semitone there, nor always do 125 ms: of model strings from E1 to F#2 that were
// played a semitone off, a few were taken for right to the end.
//
// # Scores and their terms
//
// Times are in seconds, or in milliseconds where the name says so; pitches in
// MIDI keys with a fraction; levels in dB against full scale. A note is right
// when its pitch lies within 50 cents (<=) of the written one on the guitar's
// own tuning, which may be up to 40 cents off; its octave counts. Timing is
// against the click, or, without one, against the player's own beat: a robust
// line through the onsets within eight quarter notes on either side, so that
// a drifting tempo is not called bad timing and a rushed group still is.
//
// The evaluation (go test -run Eval -eval 35) renders takes from recorded
// guitar tones and scores notes by the published rule: onset within 50 ms (<=)
// and pitch within 50 cents (<=) of the true, sounding pitch, each note used
// at most once, as many pairs as possible (Raffel et al., mir_eval, ISMIR
// 2014). It differs from mir_eval's transcription score without offsets in
// rounding nothing; mir_eval rounds distances to four decimals first. A
// reference against itself scores 1, nothing against something 0. Right notes
// lost are those marked anything but right; wrong notes caught are those
// marked anything but right. -eval.seed chooses takes, -eval.font or -eval.notes
// the guitar. The network has learnt from none of the evaluation's takes, but
// from the FluidR3 and TimGM6mb fonts and the electric guitar of testdata; other
// guitars tell more. A sound font's notes begin some milliseconds after they are
// asked for, FluidR3's 5 to 9, and that is counted as timing error: so placed,
// onsets lie 5 to 8 ms before the rise of energy in recorded notes. What is marked
// against the player's own beat is not moved by it.
package hear
