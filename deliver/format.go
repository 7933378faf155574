package deliver

import (
	"context"
	"encoding/json"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/notefile"
	"heddle/pitch"
	"heddle/score/surface"
	"heddle/sound"
)

// A Format is one kind of file that an exercise can be written as.
type Format struct {
	Name      string // the ending of its files
	Label     string // for a list to choose from
	MediaType string
	Sound     bool // is rendered, which takes a while and reports its progress
	FFmpeg    bool // needs ffmpeg to be installed

	write func(job) error
}

// A job is one exercise to be written.
type job struct {
	ctx      context.Context
	to       io.Writer
	exercise *exercise.Exercise
	choices  Choices
	progress func(percent int)
}

// Formats lists the formats in the order that help and pages give them.
func Formats() []Format {
	return []Format{
		{Name: "pdf", Label: "Handout (PDF)", MediaType: "application/pdf", write: writePDF},
		{Name: "svg", Label: "Picture (SVG)", MediaType: "image/svg+xml", write: picture(surface.WriteSVG)},
		{Name: "png", Label: "Picture (PNG)", MediaType: "image/png", write: picture(writePNG)},
		{Name: "musicxml", Label: "MusicXML", MediaType: "application/vnd.recordare.musicxml+xml", write: plain(notefile.WriteMusicXML)},
		{Name: "mid", Label: "MIDI", MediaType: "audio/midi", write: writeMIDI},
		{Name: "opus", Label: "Sound (Opus)", MediaType: "audio/ogg", Sound: true,
			write: rendered(func(j job, t audio.Tags) (audio.Sink, error) { return audio.NewOpus(j.to, t) })},
		{Name: "mp3", Label: "Sound (MP3)", MediaType: "audio/mpeg", Sound: true, FFmpeg: true,
			write: rendered(func(j job, t audio.Tags) (audio.Sink, error) { return audio.NewMP3(j.ctx, j.to, t) })},
		{Name: "m4a", Label: "Sound (M4A)", MediaType: "audio/mp4", Sound: true, FFmpeg: true,
			write: rendered(func(j job, t audio.Tags) (audio.Sink, error) { return audio.NewM4A(j.ctx, j.to, t) })},
		{Name: "flac", Label: "Sound (FLAC)", MediaType: "audio/flac", Sound: true,
			write: rendered(func(j job, t audio.Tags) (audio.Sink, error) { return audio.NewFLAC(j.to, audio.Bits24, t) })},
		{Name: "wav", Label: "Sound (WAV)", MediaType: "audio/wav", Sound: true,
			write: rendered(func(j job, t audio.Tags) (audio.Sink, error) { return audio.NewWAV(j.to, j.choices.Bits, t) })},
		{Name: "vtt", Label: "Captions (WebVTT)", MediaType: "text/vtt; charset=utf-8", write: captions(notefile.WriteVTT)},
		{Name: "srt", Label: "Captions (SubRip)", MediaType: "application/x-subrip; charset=utf-8", write: captions(notefile.WriteSRT)},
		{Name: "json", Label: "Everything (JSON)", MediaType: "application/json", write: plain(writeJSON)},
	}
}

// Names lists the names of the formats.
func Names() []string {
	var names []string
	for _, f := range Formats() {
		names = append(names, f.Name)
	}
	return names
}

// ForFile returns the format that a file's ending names.
func ForFile(name string) (Format, error) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
	names := Names()
	if at := slices.Index(names, ending); at >= 0 {
		return Formats()[at], nil
	}
	return Format{}, &pitch.InputError{What: "output", Value: name, Want: "a file name ending in one of " + strings.Join(names, ", "), Nearest: pitch.Nearest(ending, names)}
}

// Timeline is the JSON that says at which sample of a sound file each note
// sounds. It goes with a sound file and is not one of the Formats.
func Timeline() Format {
	return Format{Name: "json", MediaType: "application/json", write: func(j job) error {
		timeline, err := sound.Plan(j.exercise, j.choices.Sound)
		if err != nil {
			return err
		}
		return json.NewEncoder(j.to).Encode(timeline)
	}}
}

// Write writes the exercise. A format with Sound reports each new per cent to
// progress, which may be nil, and ends when the context does.
func (f Format) Write(ctx context.Context, w io.Writer, ex *exercise.Exercise, c Choices, progress func(percent int)) error {
	return f.write(job{ctx, w, ex, c, progress})
}

func plain(write func(io.Writer, *exercise.Exercise) error) func(job) error {
	return func(j job) error { return write(j.to, j.exercise) }
}

func writeJSON(w io.Writer, ex *exercise.Exercise) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	return encoder.Encode(ex)
}

// captions times captions to the sound file that the same choices give.
func captions(write func(io.Writer, *exercise.Exercise, float64) error) func(job) error {
	return func(j job) error {
		timeline, err := sound.Plan(j.exercise, j.choices.Sound)
		if err != nil {
			return err
		}
		return write(j.to, j.exercise, float64(timeline.Notes[0].Start)/float64(timeline.SampleRate))
	}
}
