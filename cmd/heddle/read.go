package main

import (
	"context"
	"fmt"

	"heddle/exercise"
	"heddle/notefile"
)

// readCommand reads a line from a file of another program.
type readCommand struct {
	File string `arg:"" help:"A Standard MIDI File or MusicXML; - reads standard input."`
	Part string `help:"The part that holds the line, by its name or number. Default: the first that is a melody." placeholder:"2"`

	outputFlags `embed:""`
}

// Help comes before the flags.
func (readCommand) Help() string {
	return `Reads a line from another program, names, fingers and analyses it, and shows it
in the same way as heddle line. Strings, frets and fingers in the file are kept.
Without --home, it takes the scale that leaves the fewest notes outside. It says which
scales the line is woven from. A line that the instrument does not reach is moved by
octaves.

  heddle read solo.musicxml --home "G dorian" --superimpose "semitone up"`
}

// Run reads, adopts and shows.
func (c *readCommand) Run(ctx context.Context, s streams, flags given) error {
	given, err := c.open(s)
	if err != nil {
		return err
	}
	var spec exercise.Spec
	if err := flags.apply(&spec); err != nil {
		return err
	}
	ex, err := exercise.Adopt(given, spec)
	if err != nil {
		return err
	}
	return show(ctx, ex, c.outputFlags, flags, s)
}

// open reads the file and reports the remarks of its reader.
func (c *readCommand) open(s streams) (exercise.Given, error) {
	in, done, err := openInput("file", c.File, s.in)
	if err != nil {
		return exercise.Given{}, err
	}
	defer done()
	name := c.File
	if name == "-" {
		name = "standard input"
	}
	imported, err := notefile.Read(name, in, c.Part)
	if err != nil {
		return exercise.Given{}, err
	}
	for _, remark := range imported.Remarks {
		fmt.Fprintln(s.err, "note:", remark)
	}
	return imported.Given, nil
}
