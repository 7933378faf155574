// Package notefile takes exercises to other programs and brings lines back:
// Standard MIDI Files and MusicXML 4.0 out and in, WebVTT and SubRip captions
// out.
//
// # Out
//
// [WriteMIDI], [WriteMusicXML], [WriteVTT] and [WriteSRT] write one exercise.
// The same exercise gives the same bytes: nothing is dated, nothing is random.
//
//   - MusicXML holds written positions: swing is a mark, not a displacement.
//     One part has two staves, notation above tablature. Pitches are sounding
//     ones and the clef carries the octave (clef-octave-change −1); there is no
//     transpose element, so the octave is given exactly once.
//   - Touches are technique, articulations and ornaments in MusicXML, where a bent
//     note of the tablature has the pitch at which its string is stopped; in MIDI they
//     are pitch bend, velocity and length.
//   - MIDI and captions hold sounding positions: the off-beats of a swung line
//     are where they are heard.
//   - Time zero of captions is where the first note sounds. A MIDI
//     file begins with the bar of the pickup, shortened to the pickup if a time
//     signature can express that.
//
// # In
//
// [Read] reads one melodic line from a file of any program: named notes in
// beats, with string, fret, finger, stroke and touch if the file has them. In our own
// MIDI files, cues give the groups and their scales. What a line
// can't hold is left out and reported in Remarks: other parts and voices, the
// lower notes of chords, grace notes, repeats, later tempos and metres.
//
// Files are not trusted. The size of a file and of what it unpacks to, the
// depth and number of its elements, and the notes kept of it are limited, so
// that no file takes more than 64 MB of memory. Entities and wrong lengths are
// errors. Every error is one line that says what is wrong and where.
package notefile
