// Package audio reads and writes sound files, changes sample rates and
// measures loudness. It knows nothing of exercises.
//
// Encoders are [Sink] values: [NewWAV], [NewFLAC] and [NewOpus] are built in
// and give the same bytes for the same samples; [NewMP3] and [NewM4A] hand the
// sound to ffmpeg, where it is installed. [Decode] opens a recording as a
// [Source], one channel read once from front to back: WAV, FLAC and MP3
// itself, what phones and browsers record (M4A, Ogg, Opus, WebM) through
// ffmpeg where the caller allows that.
//
// Samples lie between −1 and 1. Rates are in Hz, times in seconds, loudness in
// LUFS and true peaks in dBTP (ITU-R BS.1770-5). Whatever a file holds, memory
// stays bounded: files are read and written as streams.
package audio
