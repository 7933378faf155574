package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"heddle/exercise"
	"heddle/notefile"
	"heddle/pitch"
)

// readCommand takes a line from a file of another program.
type readCommand struct {
	File string `arg:"" help:"A Standard MIDI File or MusicXML; - reads standard input."`

	scaleFlags `embed:""`
	Chord      *string `help:"${help_chord}" placeholder:"${example_chord}" group:"harmony"`
	Changes    *string `help:"${help_changes}" placeholder:"\"${example_changes}\"" group:"harmony"`
	Tempo      *string `help:"${help_tempo}" placeholder:"${example_tempo}" group:"time"`
	Meter      *string `help:"${help_meter}" placeholder:"${example_meter}" group:"time"`
	Fret       *string `help:"${help_fret}" placeholder:"${example_fret}" group:"instrument"`
	Picking    *string `help:"${help_picking}" placeholder:"${example_picking}" group:"instrument"`
	neckFlags  `embed:""`

	outputFlags `embed:""`
}

// Help is what stands before the flags.
func (readCommand) Help() string {
	return `Brings a line from elsewhere, has it named, fingered and analysed, and shows
it as heddle line shows its own. Strings, frets and fingers in the file are
kept. Without --home, the scale that leaves the fewest notes outside is taken.

  heddle read solo.musicxml --home "G dorian" --superimpose "semitone up"`
}

// Run reads, adopts and shows.
func (c *readCommand) Run(ctx context.Context, s streams) error {
	given, err := c.open(s)
	if err != nil {
		return err
	}
	var spec exercise.Spec
	flags := c.neckFlags.flags()
	for name, flag := range map[string]*string{
		"home": c.Home, "chord": c.Chord, "changes": c.Changes, "tempo": c.Tempo, "meter": c.Meter, "fret": c.Fret, "picking": c.Picking,
	} {
		flags[name] = flag
	}
	if err := setFlags(&spec, c.Superimpose, flags); err != nil {
		return err
	}
	ex, err := exercise.Adopt(given, spec)
	if err != nil {
		return err
	}
	return show(ctx, ex, c.outputFlags, s)
}

// open reads the file and passes on what the reader has to say of it.
func (c *readCommand) open(s streams) (exercise.Given, error) {
	in, name := s.in, "standard input"
	if c.File != "-" {
		file, err := os.Open(c.File)
		if err != nil {
			return exercise.Given{}, &pitch.InputError{What: "file", Value: c.File, Want: "a file that can be read"}
		}
		defer file.Close()
		in, name = io.Reader(file), c.File
	}
	imported, err := notefile.Read(name, in)
	if err != nil {
		return exercise.Given{}, err
	}
	for _, remark := range imported.Remarks {
		fmt.Fprintln(s.err, "note:", remark)
	}
	return imported.Given(), nil
}
