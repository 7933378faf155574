package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"heddle/exercise"
	"heddle/notefile"
	"heddle/pitch"
	"heddle/score"
	"heddle/sound"
)

// pageFlags are what a printed page needs beyond the exercise.
type pageFlags struct {
	Title string `help:"A title above the first page." placeholder:"\"Thursday evening\"" group:"output"`
	Paper string `help:"The paper of a pdf: a4 or letter. Unless given, a4." enum:"a4,letter" default:"a4" placeholder:"letter" group:"output"`
}

// drawing gives the flags to the engraver.
func (f pageFlags) drawing() score.Options {
	opt := score.Options{Title: f.Title}
	if f.Paper == "letter" {
		opt.Page = score.Letter
	}
	return opt
}

// pngDPI is the resolution of pictures: enough to print.
const pngDPI = 200

// A format is one kind of file an exercise can be written as.
type format struct {
	ending string
	write  func(context.Context, io.Writer, job) error
}

// A job is an exercise and how it is to be written.
type job struct {
	ex      *exercise.Exercise
	flags   outputFlags
	remarks io.Writer
}

// formats lists the kinds of file in the order that help gives them.
func formats() []format {
	plain := func(write func(io.Writer, *exercise.Exercise) error) func(context.Context, io.Writer, job) error {
		return func(_ context.Context, w io.Writer, j job) error { return write(w, j.ex) }
	}
	sounding := func(ending string) format {
		return format{ending, func(ctx context.Context, w io.Writer, j job) error {
			return j.flags.writeSound(ctx, w, j.ex, ending, j.remarks)
		}}
	}
	return []format{
		{"json", plain(func(w io.Writer, ex *exercise.Exercise) error { return printJSON(w, ex) })},
		{"svg", picture(score.WriteStandaloneSVG)},
		{"png", picture(func(w io.Writer, d score.Drawing) error { return score.WritePNG(w, d, pngDPI) })},
		{"pdf", writePDF},
		{"mid", plain(notefile.WriteMIDI)},
		{"musicxml", plain(notefile.WriteMusicXML)},
		sounding("wav"), sounding("flac"), sounding("mp3"),
		{"vtt", writeCaptions},
	}
}

// picture writes the whole exercise as one picture.
func picture(write func(io.Writer, score.Drawing) error) func(context.Context, io.Writer, job) error {
	return func(_ context.Context, w io.Writer, j job) error {
		d, err := score.Poster(j.ex, j.flags.drawing())
		if err != nil {
			return err
		}
		return write(w, d)
	}
}

// writeCaptions times the captions to the sound that is written with them, or
// to the line alone.
func writeCaptions(_ context.Context, w io.Writer, j job) error {
	for _, name := range j.flags.Output {
		if !slices.Contains([]string{"wav", "flac", "mp3"}, endingOf(name)) {
			continue
		}
		o, err := j.flags.soundFlags.options()
		if err != nil {
			return err
		}
		timeline, err := sound.Plan(j.ex, o)
		if err != nil {
			return err
		}
		return notefile.WriteVTT(w, j.ex, float64(timeline.Notes[0].Start)/float64(timeline.SampleRate))
	}
	return notefile.WriteVTT(w, j.ex, 0)
}

func writePDF(_ context.Context, w io.Writer, j job) error {
	pages, err := score.Pages(j.ex, j.flags.drawing())
	if err != nil {
		return err
	}
	return score.WritePDF(w, pages)
}

// endings lists the endings of all formats.
func endings() []string {
	var list []string
	for _, f := range formats() {
		list = append(list, f.ending)
	}
	return list
}

// endingOf returns the ending of a file's name in lower case.
func endingOf(name string) string {
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
}

// writeFiles writes the exercise to each file in the format its ending names.
// All names are looked at before the first file is touched.
func (j job) writeFiles(ctx context.Context) error {
	names := j.flags.Output
	chosen := make([]format, len(names))
	for i, name := range names {
		ending := endingOf(name)
		at := slices.IndexFunc(formats(), func(f format) bool { return f.ending == ending })
		if at < 0 {
			return &pitch.InputError{What: "output", Value: name, Want: "a file name ending in one of " + strings.Join(endings(), ", "), Nearest: pitch.Nearest(ending, endings())}
		}
		chosen[i] = formats()[at]
	}
	if _, err := j.flags.soundFlags.options(); err != nil {
		return err
	}
	for i, name := range names {
		if err := writeFile(name, func(w io.Writer) error { return chosen[i].write(ctx, w, j) }); err != nil {
			return fmt.Errorf("%s: %w", name, cause(err))
		}
		fmt.Fprintln(j.remarks, "wrote", name)
	}
	return nil
}

// writeFile writes a file beside its place and moves it there when it is
// whole, so that a file of that name is never left half written.
func writeFile(name string, write func(io.Writer) error) (err error) {
	if there, err := os.Stat(name); err == nil && there.IsDir() {
		return syscall.EISDIR
	}
	file, err := os.CreateTemp(filepath.Dir(name), ".heddle-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			file.Close()
			os.Remove(file.Name())
		}
	}()
	buffered := bufio.NewWriter(file)
	if err = write(buffered); err != nil {
		return err
	}
	if err = buffered.Flush(); err != nil {
		return err
	}
	if err = file.Chmod(0o644); err != nil {
		return err
	}
	if err = file.Close(); err != nil {
		return err
	}
	return os.Rename(file.Name(), name)
}

// cause is the system's own word for an error, without the file that it names: it
// is the one written beside the place, and the player knows only the place.
func cause(err error) error {
	var system syscall.Errno
	if errors.As(err, &system) {
		return system
	}
	return err
}
