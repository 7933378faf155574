// Package notefile carries exercises to other programs and brings lines back:
// Standard MIDI Files and MusicXML 4.0 out and in, WebVTT and SubRip captions
// out.
//
// # Out
//
// [WriteMIDI], [WriteMusicXML] and [WriteVTT] write one exercise. The same
// exercise gives the same bytes: nothing is dated, nothing is random.
//
//   - MusicXML holds written positions: swing is a mark, not a displacement.
//     One part has two staves, notation above tablature. Pitches are sounding
//     ones and the clef carries the octave (clef-octave-change −1); there is
//     no transpose element, so the octave is told exactly once.
//   - MIDI and captions hold sounding positions: the off-beats of a swung line
//     lie where they are heard.
//   - Time zero in a caption file is where the line begins, with its pickup.
//     A MIDI file begins with the bar that holds the pickup, cut short to it
//     where a time signature can say so.
//
// # In
//
// [Read], [ReadMIDI] and [ReadMusicXML] bring one melodic line from a file of
// any program as an [Import]: named notes in beats, with string, fret, finger
// and stroke where the file tells them. What a line can't hold is left out and
// said in Remarks: other parts and voices, the lower notes of chords, grace
// notes, repeats, later tempos and metres.
//
// Files are not trusted. No more than [MaxFileBytes] are read of one, no more
// than [MaxXMLBytes] unpacked from a compressed one; entities, deep nesting and
// lengths that lie are refused. Every error is one line that says what is
// wrong and where.
package notefile
