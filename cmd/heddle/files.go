package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"heddle/exercise"
	"heddle/notefile"
	"heddle/pitch"
)

// A format is one kind of file an exercise can be written as.
type format struct {
	ending string
	write  func(io.Writer, *exercise.Exercise) error
}

// formats lists the kinds of file in the order that help gives them.
func formats() []format {
	return []format{
		{"json", func(w io.Writer, ex *exercise.Exercise) error { return printJSON(w, ex) }},
		{"mid", notefile.WriteMIDI},
		{"musicxml", notefile.WriteMusicXML},
		{"vtt", notefile.WriteVTT},
	}
}

// endings lists the endings of all formats.
func endings() []string {
	var list []string
	for _, f := range formats() {
		list = append(list, f.ending)
	}
	return list
}

// writeFiles writes the exercise to each file in the format its ending names.
// All names are looked at before the first file is touched.
func writeFiles(ex *exercise.Exercise, names []string, remarks io.Writer) error {
	chosen := make([]format, len(names))
	for i, name := range names {
		ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
		at := slices.IndexFunc(formats(), func(f format) bool { return f.ending == ending })
		if at < 0 {
			return &pitch.InputError{What: "output", Value: name, Want: "a file name ending in one of " + strings.Join(endings(), ", "), Nearest: pitch.Nearest(ending, endings())}
		}
		chosen[i] = formats()[at]
	}
	for i, name := range names {
		if err := writeFile(name, func(w io.Writer) error { return chosen[i].write(w, ex) }); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		fmt.Fprintln(remarks, "wrote", name)
	}
	return nil
}

// writeFile writes a file beside its place and moves it there when it is
// whole, so that a file of that name is never left half written.
func writeFile(name string, write func(io.Writer) error) (err error) {
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
