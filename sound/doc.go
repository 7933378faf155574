// Package sound turns an exercise into samples: the line on a plucked string
// over a vamp, in time, with a click and the note names spoken.
//
// [Render] plays an exercise into a sink of package audio. [RenderPart] plays
// one part alone, with the timing and gain it has in the mix, so that a player
// can mute parts of a loop. [Plan] returns the [Timeline] (the sample at which
// each bar, beat, note and spoken name starts) without making any sound.
//
// This package decides who plays what and when: the line, comping, bass,
// drums, click and voice. The packages below it make the sound: pluck,
// keyboard, drumkit and mixer, on filters and chance from dsp; groove holds the
// patterns that the band plays.
//
// What the package promises:
//
//   - The same exercise and the same options give the same samples. Chance
//     comes only from Options.Seed and from an event's place in the form.
//   - Strings, keys and click are synthesised. The drums are recorded strokes
//     of FluidR3 (MIT licence), the spoken names recordings of a free speech
//     synthesiser; both are kept beside this file.
//   - Memory does not grow with the length of the sound. A render stops soon
//     after its context is done.
//   - Strings are in tune within one cent of equal temperament at
//     A4 = 440 Hz (ISO 16), over the whole neck of every instrument.
//   - Loudness is within half a dB of −16 LUFS (ITU-R BS.1770-5) over the first
//     time through, whatever the groove, and true peaks stay below −1 dBTP. One
//     gain is found before the first sample is handed out and never moves; a limiter
//     catches what is left over.
//   - Spoken names are on average 3 dB above where the mix would mask them.
//   - With Options.Seamless, the last sample runs into the first: what still
//     rings at the end of the loop is heard at its head.
//
// Times are in samples from the start of the file, counted per channel.
// Samples are float32 in −1…1, left and right interleaved. Levels are in dB,
// pans from −1 (left) to 1 (right).
package sound
