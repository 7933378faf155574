package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/pitch"
)

// outputFlags say where an exercise goes.
type outputFlags struct {
	JSON     bool     `name:"json" help:"Print everything as JSON." group:"output"`
	Output   []string `short:"o" help:"Write it to a file, in the format of its ending: ${formats}. May be repeated." placeholder:"FILE" group:"output" sep:"none"`
	Timeline string   `help:"With a sound file: also write, as JSON, the sample at which each note sounds." placeholder:"FILE" group:"sound"`
}

// An output is a file to be written.
type output struct {
	flag, name string
	format     deliver.Format
}

// outputs lists the files to be written. Nothing has been touched when it
// refuses one.
func (f outputFlags) outputs() ([]output, error) {
	var list []output
	sounds := false
	for _, name := range f.Output {
		format, err := deliver.ForFile(name)
		if err != nil {
			return nil, err
		}
		sounds = sounds || format.Sound
		list = append(list, output{"output", name, format})
	}
	if f.Timeline != "" {
		if !sounds {
			return nil, &pitch.InputError{What: "timeline", Value: f.Timeline, Want: "a sound file as well, such as -o line.wav"}
		}
		list = append(list, output{"timeline", f.Timeline, deliver.Timeline()})
	}
	for i, o := range list {
		for _, before := range list[:i] {
			if sameFile(o.name, before.name) {
				return nil, &pitch.InputError{What: o.flag, Value: o.name, Want: "another file; this one is already written by --" + before.flag}
			}
		}
	}
	return list, nil
}

// sameFile reports whether two names are those of one regular file, which may
// not be there yet.
func sameFile(a, b string) bool {
	there, err := os.Stat(a)
	if err == nil {
		other, err := os.Stat(b)
		return err == nil && there.Mode().IsRegular() && os.SameFile(there, other)
	}
	fullA, errA := filepath.Abs(a)
	fullB, errB := filepath.Abs(b)
	return errA == nil && errB == nil && fullA == fullB
}

// show writes the exercise to the files named, and prints it unless only files
// were asked for.
func show(ctx context.Context, ex *exercise.Exercise, f outputFlags, flags given, s streams) error {
	choices, err := deliver.Choose(flags)
	if err != nil {
		return err
	}
	outputs, err := f.outputs()
	if err != nil {
		return err
	}
	for _, remark := range ex.Remarks {
		fmt.Fprintln(s.err, "note:", remark)
	}
	for _, o := range outputs {
		if err := o.write(ctx, ex, choices, s.err); err != nil {
			return err
		}
	}
	switch {
	case f.JSON:
		return printJSON(s.out, ex)
	case len(f.Output) > 0:
		return nil
	}
	_, err = io.WriteString(s.out, lineText(ex))
	return err
}

func (o output) write(ctx context.Context, ex *exercise.Exercise, choices deliver.Choices, remarks io.Writer) error {
	var progress func(int)
	if terminal(remarks) {
		progress = func(percent int) { fmt.Fprintf(remarks, "\r%3d %%", percent) }
		defer fmt.Fprint(remarks, "\r     \r")
	}
	err := deliver.WriteFile(ctx, o.name, func(w io.Writer) error { return o.format.Write(ctx, w, ex, choices, progress) })
	if err == nil {
		defer fmt.Fprintln(remarks, "wrote", o.name)
	}
	return err
}

// terminal reports whether a person is watching w.
func terminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	stat, err := file.Stat()
	return err == nil && stat.Mode()&os.ModeCharDevice != 0
}
