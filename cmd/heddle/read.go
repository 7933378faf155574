package main

import (
	"context"
	"fmt"

	"heddle/exercise"
	"heddle/notefile"
)

// readCommand reads a line from a file of another program.
type readCommand struct {
	File string `arg:"" help:"A Standard MIDI File, MusicXML or JSON of heddle line; - reads standard input."`
	Part string `help:"The part that holds the line, by its name or number. Default: the first that is a melody." placeholder:"2"`

	outputFlags `embed:""`
}

// Help comes before the flags.
func (readCommand) Help() string {
	return `Reads a line from another program, names, fingers and analyses it, and shows it
as heddle line does. Strings, frets, fingers and touches in the file are kept. MIDI
files that heddle wrote keep their groups and scales.
Without --home, it takes the scale that leaves the fewest notes outside. It says which
scales the line is woven from. A line that the instrument does not reach is moved by
octaves.

  heddle read solo.musicxml --home "G dorian" --superimpose "semitone up"

The JSON that heddle line prints can be changed by hand and read again, for example
with a touch for a single note: "touch": {"bend": 2, "release": true}. The others are
"slide": "into" or "between", and "vibrato", "ghost", "accent" and "staccato": true.
A bend is 0.5, 1 or 2 semitones. One of 1 or 2 has the fret where the string is
stopped, that far below the note; without string and fret, heddle finds a place.

  heddle line --home "A minor pentatonic" --fret 5 --json > line.json
  heddle read line.json -o line.wav`
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
